/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A report as a spreadsheet: an OpenDocument package (OASIS OpenDocument 1.2, parts 1 and 3) with a
 * sheet for each section that has a table. Numbers are numbers there, whatever the decimal mark of
 * the maker's language is.
 */
#include "report-parts.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>
#include <gsf/gsf-libxml.h>
#include <gsf/gsf-outfile-zip.h>
#include <gsf/gsf-outfile.h>
#include <gsf/gsf-output-memory.h>

#include "layers.h"

G_DEFINE_AUTOPTR_CLEANUP_FUNC (GsfOutput, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (GsfOutfile, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (GsfXMLOut, g_object_unref)

#define MIME_TYPE "application/vnd.oasis.opendocument.spreadsheet"
#define URN "urn:oasis:names:tc:opendocument:xmlns:"

/* A sheet's name: at most so many letters, none of those that other programs refuse. */
#define NAME_LETTERS 31
#define NAME_REFUSES "[]*?:/\\'"

/* Columns are as wide as their longest word, about; mm. */
#define WIDTH_OF_LETTER 2.1
#define WIDTH_LEAST 14.0
#define WIDTH_MOST 110.0

typedef struct {
  char *name;
  guint first, n_parts; /* of the report's parts */
} Sheet;

static void
clear_sheet (gpointer data)
{
  g_free (((Sheet *) data)->name);
}

/* --- Sheets -------------------------------------------------------------------------------------
 */

static bool
has_name (const GArray *sheets, const char *name)
{
  for (guint s = 0; s < sheets->len; s++)
    if (strcmp (g_array_index (sheets, Sheet, s).name, name) == 0)
      return true;
  return false;
}

static char *
single_spaced (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  GString *all = g_string_new (NULL);
  for (char **word = words; *word; word++)
    if (**word)
      g_string_append_printf (all, "%s%s", all->len > 0 ? " " : "", *word);
  return g_string_free (all, FALSE);
}

/* The first letters of a name, as many as there is room for, without space at its end. */
static char *
start_of (const char *name, glong room)
{
  return g_strchomp (g_utf8_substring (name, 0, MIN (g_utf8_strlen (name, -1), room)));
}

/* `wanted` as the name of one more sheet: no two are alike. */
static char *
sheet_name (const GArray *sheets, const char *wanted)
{
  g_autofree char *valid = g_utf8_make_valid (wanted, -1);
  g_autofree char *good = single_spaced (g_strdelimit (valid, NAME_REFUSES, ' '));
  char *name = start_of (good, NAME_LETTERS);
  for (guint n = 2; has_name (sheets, name); n++)
    {
      g_autofree char *number = g_strdup_printf (" %u", n);
      g_autofree char *start = start_of (good, NAME_LETTERS - (glong) strlen (number));
      g_free (name);
      name = g_strconcat (start, number, NULL);
    }
  return name;
}

static const PfReportPart *
part_at (const PfReportParts *parts, guint i)
{
  return g_ptr_array_index (parts->parts, i);
}

/* Where the section that begins at part `i` ends: before the next heading. */
static guint
end_of_section (const PfReportParts *parts, guint i)
{
  for (i++; i < parts->parts->len; i++)
    if (part_at (parts, i)->kind == PF_PART_HEADING)
      break;
  return i;
}

/* The sections; one that is a heading alone, as that of a motif is, has its sections after it.
 * These begin with the motif's number if there are several. */
static GArray *
find_sheets (const PfReportParts *parts, bool several_motifs)
{
  GArray *sheets = g_array_new (FALSE, FALSE, sizeof (Sheet));
  g_array_set_clear_func (sheets, clear_sheet);
  guint motif = 0, end;
  for (guint i = 0; i < parts->parts->len; i = end)
    {
      const PfReportPart *head = part_at (parts, i);
      end = end_of_section (parts, i);
      if (head->level == 2 && end == i + 1)
        {
          motif++;
          continue;
        }
      g_autofree char *number = head->level == 3 && several_motifs ? pf_roman_number (motif) : NULL;
      g_autofree char *wanted =
          number ? g_strconcat (number, " ", head->text, NULL) : g_strdup (head->text);
      const Sheet sheet = { sheet_name (sheets, wanted), i, end - i };
      g_array_append_val (sheets, sheet);
    }
  return sheets;
}

/* --- Cells --------------------------------------------------------------------------------------
 */

/* XML's letters only (XML 1.0, 2.2): no control characters. */
static char *
clean (const char *text)
{
  char *valid = g_utf8_make_valid (text, -1);
  for (char *p = valid; *p; p++)
    if ((guchar) *p < ' ' || *p == 0x7f)
      *p = ' ';
  return valid;
}

/* Is the text a number, in the maker's language, perhaps of degrees? */
static bool
read_number (const char *text, double *number)
{
  char *end;
  *number = g_strtod (text, &end);
  if (end != text && g_str_has_prefix (end, "°"))
    end += strlen ("°");
  return end != text && *end == '\0' && isfinite (*number);
}

static void
put_cell (GsfXMLOut *xml, const char *style, const char *text, bool may_be_number)
{
  double number;
  gsf_xml_out_start_element (xml, "table:table-cell");
  if (style)
    gsf_xml_out_add_cstr_unchecked (xml, "table:style-name", style);
  if (may_be_number && read_number (text, &number))
    {
      char digits[G_ASCII_DTOSTR_BUF_SIZE];
      gsf_xml_out_add_cstr_unchecked (xml, "office:value-type", "float");
      gsf_xml_out_add_cstr_unchecked (xml, "office:value",
                                      g_ascii_dtostr (digits, sizeof digits, number));
    }
  else if (*text)
    gsf_xml_out_add_cstr_unchecked (xml, "office:value-type", "string");
  if (*text)
    {
      g_autofree char *words = clean (text);
      gsf_xml_out_start_element (xml, "text:p");
      gsf_xml_out_add_cstr (xml, NULL, words);
      gsf_xml_out_end_element (xml);
    }
  gsf_xml_out_end_element (xml);
}

static void
put_line (GsfXMLOut *xml, const char *style, const char *text)
{
  gsf_xml_out_start_element (xml, "table:table-row");
  put_cell (xml, style, text, false);
  gsf_xml_out_end_element (xml);
}

static void
put_table (GsfXMLOut *xml, const PfReportTable *table)
{
  const size_t n = table->n_columns;
  if (table->caption)
    put_line (xml, "small", table->caption);
  if (table->heads->len > 0)
    {
      gsf_xml_out_start_element (xml, "table:table-row");
      for (size_t c = 0; c < n; c++)
        put_cell (xml, "head", g_ptr_array_index (table->heads, c), false);
      gsf_xml_out_end_element (xml);
    }
  for (size_t r = 0; r < pf_report_table_rows (table); r++)
    {
      gsf_xml_out_start_element (xml, "table:table-row");
      for (size_t c = 0; c < n; c++)
        put_cell (xml, NULL, g_ptr_array_index (table->cells, r * n + c),
                  table->columns[c] == PF_FLOW_NUMBERS);
      gsf_xml_out_end_element (xml);
    }
}

/* --- Columns ------------------------------------------------------------------------------------
 */

static void
widen (GArray *widths, size_t column, const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  const double width = WIDTH_OF_LETTER * (double) (g_utf8_strlen (valid, -1) + 2);
  while (widths->len <= column)
    {
      const double least = WIDTH_LEAST;
      g_array_append_val (widths, least);
    }
  double *old = &g_array_index (widths, double, column);
  *old = CLAMP (width, *old, fmax (*old, WIDTH_MOST));
}

/* How wide a sheet's columns are, mm: as its tables need. An array of double. */
static GArray *
column_widths (const PfReportParts *parts, const Sheet *sheet)
{
  GArray *widths = g_array_new (FALSE, FALSE, sizeof (double));
  widen (widths, 0, "");
  for (guint i = sheet->first; i < sheet->first + sheet->n_parts; i++)
    {
      const PfReportTable *table = part_at (parts, i)->table;
      for (guint h = 0; table && h < table->heads->len; h++)
        widen (widths, h, g_ptr_array_index (table->heads, h));
      for (guint c = 0; table && c < table->cells->len; c++)
        widen (widths, c % table->n_columns, g_ptr_array_index (table->cells, c));
    }
  return widths;
}

static void
put_column_style (GsfXMLOut *xml, guint sheet, guint column, double width)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (digits, sizeof digits, "%.1f", width);
  g_autofree char *name = g_strdup_printf ("c%u-%u", sheet, column);
  g_autofree char *length = g_strconcat (digits, "mm", NULL);
  gsf_xml_out_start_element (xml, "style:style");
  gsf_xml_out_add_cstr_unchecked (xml, "style:name", name);
  gsf_xml_out_add_cstr_unchecked (xml, "style:family", "table-column");
  gsf_xml_out_start_element (xml, "style:table-column-properties");
  gsf_xml_out_add_cstr_unchecked (xml, "style:column-width", length);
  gsf_xml_out_end_element (xml);
  gsf_xml_out_end_element (xml);
}

/* --- The files of the package -------------------------------------------------------------------
 */

static void
put_text_style (GsfXMLOut *xml, const char *name, const char *weight, const char *size)
{
  gsf_xml_out_start_element (xml, "style:style");
  gsf_xml_out_add_cstr_unchecked (xml, "style:name", name);
  gsf_xml_out_add_cstr_unchecked (xml, "style:family", "table-cell");
  gsf_xml_out_start_element (xml, "style:text-properties");
  gsf_xml_out_add_cstr_unchecked (xml, "fo:font-size", size);
  gsf_xml_out_add_cstr_unchecked (xml, "fo:font-weight", weight);
  gsf_xml_out_end_element (xml);
  gsf_xml_out_end_element (xml);
}

static void
put_styles (GsfXMLOut *xml, const PfReportParts *parts, const GArray *sheets)
{
  gsf_xml_out_start_element (xml, "office:automatic-styles");
  put_text_style (xml, "title", "bold", "13pt");
  put_text_style (xml, "head", "bold", "10pt");
  put_text_style (xml, "small", "normal", "8.5pt");
  for (guint s = 0; s < sheets->len; s++)
    {
      g_autoptr (GArray) widths = column_widths (parts, &g_array_index (sheets, Sheet, s));
      for (guint c = 0; c < widths->len; c++)
        put_column_style (xml, s, c, g_array_index (widths, double, c));
    }
  gsf_xml_out_end_element (xml);
}

static void
put_part (GsfXMLOut *xml, const PfReportPart *part)
{
  if (part->kind == PF_PART_TABLE)
    put_table (xml, part->table);
  else
    put_line (xml,
              part->kind == PF_PART_HEADING   ? "title"
              : part->kind == PF_PART_CAPTION ? "small"
                                              : NULL,
              part->text);
}

static void
put_sheet (GsfXMLOut *xml, const PfReportParts *parts, const GArray *sheets, guint s)
{
  const Sheet *sheet = &g_array_index (sheets, Sheet, s);
  g_autofree char *name = clean (sheet->name);
  g_autoptr (GArray) widths = column_widths (parts, sheet);
  gsf_xml_out_start_element (xml, "table:table");
  gsf_xml_out_add_cstr (xml, "table:name", name);
  for (guint c = 0; c < widths->len; c++)
    {
      g_autofree char *style = g_strdup_printf ("c%u-%u", s, c);
      gsf_xml_out_start_element (xml, "table:table-column");
      gsf_xml_out_add_cstr_unchecked (xml, "table:style-name", style);
      gsf_xml_out_end_element (xml);
    }
  for (guint i = sheet->first; i < sheet->first + sheet->n_parts; i++)
    put_part (xml, part_at (parts, i));
  if (s == 0)
    put_line (xml, "small", parts->care);
  gsf_xml_out_end_element (xml);
}

typedef struct {
  const PfReportParts *parts;
  const GArray *sheets;
  GDateTime *created;
} Report;

static void
write_content (GsfXMLOut *xml, const Report *report)
{
  static const char *const spaces[][2] = {
    { "xmlns:office", URN "office:1.0" },        { "xmlns:style", URN "style:1.0" },
    { "xmlns:table", URN "table:1.0" },          { "xmlns:text", URN "text:1.0" },
    { "xmlns:fo", URN "xsl-fo-compatible:1.0" },
  };
  gsf_xml_out_start_element (xml, "office:document-content");
  for (size_t s = 0; s < G_N_ELEMENTS (spaces); s++)
    gsf_xml_out_add_cstr_unchecked (xml, spaces[s][0], spaces[s][1]);
  gsf_xml_out_add_cstr_unchecked (xml, "office:version", "1.2");
  put_styles (xml, report->parts, report->sheets);
  gsf_xml_out_start_element (xml, "office:body");
  gsf_xml_out_start_element (xml, "office:spreadsheet");
  for (guint s = 0; s < report->sheets->len; s++)
    put_sheet (xml, report->parts, report->sheets, s);
  gsf_xml_out_end_element (xml);
  gsf_xml_out_end_element (xml);
  gsf_xml_out_end_element (xml);
}

static void
put_text (GsfXMLOut *xml, const char *element, const char *text)
{
  g_autofree char *words = clean (text);
  gsf_xml_out_start_element (xml, element);
  gsf_xml_out_add_cstr (xml, NULL, words);
  gsf_xml_out_end_element (xml);
}

static void
write_meta (GsfXMLOut *xml, const Report *report)
{
  g_autofree char *date = g_date_time_format (report->created, "%Y-%m-%dT%H:%M:%SZ");
  gsf_xml_out_start_element (xml, "office:document-meta");
  gsf_xml_out_add_cstr_unchecked (xml, "xmlns:office", URN "office:1.0");
  gsf_xml_out_add_cstr_unchecked (xml, "xmlns:meta", URN "meta:1.0");
  gsf_xml_out_add_cstr_unchecked (xml, "xmlns:dc", "http://purl.org/dc/elements/1.1/");
  gsf_xml_out_add_cstr_unchecked (xml, "office:version", "1.2");
  gsf_xml_out_start_element (xml, "office:meta");
  put_text (xml, "meta:generator", "Pinfold/" PF_VERSION);
  put_text (xml, "dc:title", report->parts->title);
  put_text (xml, "meta:creation-date", date);
  gsf_xml_out_end_element (xml);
  gsf_xml_out_end_element (xml);
}

static void
write_manifest (GsfXMLOut *xml, const Report *report)
{
  static const char *const files[][2] = {
    { "/", MIME_TYPE },
    { "content.xml", "text/xml" },
    { "meta.xml", "text/xml" },
  };
  (void) report;
  gsf_xml_out_start_element (xml, "manifest:manifest");
  gsf_xml_out_add_cstr_unchecked (xml, "xmlns:manifest", URN "manifest:1.0");
  gsf_xml_out_add_cstr_unchecked (xml, "manifest:version", "1.2");
  for (size_t f = 0; f < G_N_ELEMENTS (files); f++)
    {
      gsf_xml_out_start_element (xml, "manifest:file-entry");
      gsf_xml_out_add_cstr_unchecked (xml, "manifest:full-path", files[f][0]);
      if (f == 0)
        gsf_xml_out_add_cstr_unchecked (xml, "manifest:version", "1.2");
      gsf_xml_out_add_cstr_unchecked (xml, "manifest:media-type", files[f][1]);
      gsf_xml_out_end_element (xml);
    }
  gsf_xml_out_end_element (xml);
}

/* --- The package --------------------------------------------------------------------------------
 */

typedef void (*WriteXml) (GsfXMLOut *xml, const Report *report);

static bool
add_xml (GsfOutfile *folder, const char *name, WriteXml write, const Report *report)
{
  g_autoptr (GsfOutput) file =
      gsf_outfile_new_child_full (folder, name, FALSE, "modtime", report->created, NULL);
  g_autoptr (GsfXMLOut) xml = gsf_xml_out_new (file);
  gsf_xml_out_set_pretty_print (xml, FALSE);
  write (xml, report);
  return gsf_output_close (file);
}

/* The first file of the package, not compressed, so that its kind can be told by its first bytes
 * (part 3, 3.3). */
static bool
add_mime_type (GsfOutfile *package, const Report *report)
{
  g_autoptr (GsfOutput) file = gsf_outfile_new_child_full (
      package, "mimetype", FALSE, "compression-level", 0, "modtime", report->created, NULL);
  return gsf_output_write (file, strlen (MIME_TYPE), (const guint8 *) MIME_TYPE) &&
         gsf_output_close (file);
}

static bool
add_manifest (GsfOutfile *package, const Report *report)
{
  g_autoptr (GsfOutput) folder =
      gsf_outfile_new_child_full (package, "META-INF", TRUE, "modtime", report->created, NULL);
  return add_xml (GSF_OUTFILE (folder), "manifest.xml", write_manifest, report) &&
         gsf_output_close (folder);
}

static GByteArray *
write_package (const Report *report)
{
  g_autoptr (GsfOutput) memory = gsf_output_memory_new ();
  g_autoptr (GsfOutfile) package = gsf_outfile_zip_new (memory, NULL);
  const bool good = add_mime_type (package, report) &&
                    add_xml (package, "content.xml", write_content, report) &&
                    add_xml (package, "meta.xml", write_meta, report) &&
                    add_manifest (package, report) && gsf_output_close (GSF_OUTPUT (package));
  if (!good)
    return NULL;
  const guint8 *bytes = gsf_output_memory_get_bytes (GSF_OUTPUT_MEMORY (memory));
  GByteArray *copy = g_byte_array_new ();
  g_byte_array_append (copy, bytes, (guint) gsf_output_size (memory));
  return copy;
}

GByteArray *
pf_report_parts_ods (const PfReportParts *parts, bool several_motifs, gint64 created,
                     GError **error)
{
  g_autoptr (GArray) sheets = find_sheets (parts, several_motifs);
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (created);
  const Report report = { parts, sheets, time };
  GByteArray *package = write_package (&report);
  if (!package)
    g_set_error_literal (error, PF_ERROR, PF_ERROR_TOO_BIG,
                         _ ("The report can’t be put into a spreadsheet. Save it as a PDF, or its "
                            "sewings as .csv."));
  return package;
}
