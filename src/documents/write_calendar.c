/* Due visits as iCalendar (RFC 5545): an event of one day each. */
#include "base/character.h"
#include "documents/write_records.h"
#include "records/day.h"

#include <string.h>

/* The most octets of a line, without its break (3.1). */
#define QLL_LINE_SIZE 75

/* Writes a content line, folded: what goes on begins with a blank, and no character is cut. */
static void write_line(qll_writer *writer, const char *line)
{
    size_t written = 0;
    while (*line != '\0') {
        size_t size = 1;
        while ((line[size] & '\xc0') == '\x80') {
            size++;
        }
        if (written + size > QLL_LINE_SIZE) {
            qll_write(writer, "\r\n ");
            written = 1;
        }
        qll_write_text(writer, (qll_text){line, size});
        written += size;
        line += size;
    }
    qll_write(writer, "\r\n");
}

/* A text as a value (3.3.11): backslash, semicolon, comma and line breaks are escaped, other control characters left out. */
static void write_value(qll_writer *writer, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '\n') {
            qll_write(writer, "\\n");
        } else if (strchr("\\;,", *c) != NULL) {
            qll_write_format(writer, "\\%c", *c);
        } else if ((unsigned char)*c >= ' ' && *c != '\x7f') {
            qll_write_byte(writer, *c, 1);
        }
    }
}

static void write_text_line(qll_writer *writer, const qll_wording *wording, const char *name,
                            const qll_said *said)
{
    qll_writer text = qll_writer_new(writer->arena);
    qll_wording_said(&text, wording, said);
    qll_writer line = qll_writer_new(writer->arena);
    qll_write(&line, name);
    write_value(&line, qll_writer_text(&text).bytes);
    write_line(writer, qll_writer_text(&line).bytes);
}

/* "DTSTART;VALUE=DATE:20261120" */
static void write_day_line(qll_writer *writer, const char *name, int day)
{
    char text[QLL_DAY_SIZE];
    qll_day_write(day, text);
    qll_write_format(writer, "%s;VALUE=DATE:%.4s%.2s%.2s\r\n", name, text, text + 5, text + 8);
}

static void write_event(qll_writer *writer, const qll_wording *wording, const qll_due_site *site,
                        const char *created)
{
    const char *name = site->row->name[0] == '\0' ? site->row->site : site->row->name;
    qll_write_format(writer, "BEGIN:VEVENT\r\nUID:%s@quell\r\nDTSTAMP:%s\r\n", site->row->site,
                     created);
    write_day_line(writer, "DTSTART", site->due);
    write_day_line(writer, "DTEND", site->due + 1);
    write_text_line(writer, wording,
                    "SUMMARY:", QLL_SAYS_WITH(RECORD_CALENDAR_SUMMARY, qll_as_is(name)));
    const qll_argument last = site->row->service_day == NULL ? qll_as_text(QLL_TEXT_RECORD_NEVER)
                                                             : qll_as_is(site->row->service_day);
    write_text_line(writer, wording, "DESCRIPTION:", QLL_SAYS_WITH(RECORD_CALENDAR_ABOUT, last));
    qll_write(writer, "TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n");
}

void qll_calendar_write(qll_writer *writer, const qll_recorded *found, const char *created)
{
    qll_write(writer, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//quell//records//EN\r\n");
    for (size_t i = 0; i < found->site_count; i++) {
        if (found->sites[i].state != QLL_DUE_NO_PLAN) {
            write_event(writer, &found->wording, &found->sites[i], created);
        }
    }
    qll_write(writer, "END:VCALENDAR\r\n");
}
