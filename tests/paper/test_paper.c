/* Writes a PDF of two pages for tests/paper/pdf.sh to look at, and checks what can be seen in bytes. */
#include "check.h"
#include "paper/paper.h"

#include <stdlib.h>

static qll_arena *arena;
static const char *out;

static const qll_paper_about about = {
    .title = "Kiln Hill (station)",
    .subject = "",
    .language = "en",
    .created = "2026-01-31T12:00:00Z",
};

static void words(qll_canvas *canvas, double y_mm, const char *said)
{
    static const qll_letters letters = {.size_mm = 3.5};
    qll_canvas_text(canvas, (qll_xy){20, y_mm}, qll_text_of(said), &letters);
}

static void marked(qll_canvas *canvas, qll_mark_kind kind, const char *text, double y_mm,
                   const char *said)
{
    qll_canvas_begin(canvas, &(qll_mark){kind, 1, text});
    words(canvas, y_mm, said);
    qll_canvas_end(canvas);
}

static qll_canvas two_pages(void)
{
    qll_canvas canvas = qll_canvas_new(215.9, 279.4, arena);
    marked(&canvas, QLL_MARK_HEADING, "Settings 'and' \\ more", 30, "Settings");
    marked(&canvas, QLL_MARK_FIGURE, "First figure (one)", 40, "in figure one");
    qll_canvas_begin(&canvas, &(qll_mark){.kind = QLL_MARK_TABLE});
    for (int row = 0; row < 4; row++) {
        if (row == 2) {
            qll_canvas_page(&canvas);
        }
        qll_canvas_begin(&canvas, &(qll_mark){.kind = QLL_MARK_ROW});
        marked(&canvas, row == 0 ? QLL_MARK_HEAD_CELL : QLL_MARK_CELL, NULL, 60 + 6 * row,
               "set 58 psi");
        qll_canvas_end(&canvas);
    }
    qll_canvas_end(&canvas);
    marked(&canvas, QLL_MARK_FIGURE, "Second figure: \xC2\xBD in", 120, "in figure two");
    qll_canvas_place(&canvas, (qll_xy){20, 20}, "it's here");
    marked(&canvas, QLL_MARK_LINK, "#it's here", 130, "to a place");
    marked(&canvas, QLL_MARK_LINK, "#nowhere", 140, "to nowhere");
    marked(&canvas, QLL_MARK_LINK, "https://example.org/a'b", 150, "outside");
    marked(&canvas, QLL_MARK_LINK, "javascript:alert(1)", 160, "no link");
    marked(&canvas, QLL_MARK_DECORATION, NULL, 270, "page 2");
    return canvas;
}

static qll_text pdf_of(const qll_canvas *canvas)
{
    qll_paper paper;
    CHECK(qll_pdf_write(canvas, &about, NULL, arena, &paper) == QLL_OK);
    CHECK_TEXT(paper.why, "");
    return paper.bytes;
}

static bool has(qll_text text, const char *part)
{
    size_t size = strlen(part);
    for (size_t i = 0; i + size <= text.size; i++) {
        if (memcmp(text.bytes + i, part, size) == 0) {
            return true;
        }
    }
    return false;
}

static void save(qll_text bytes, const char *name)
{
    char path[4096];
    int size = snprintf(path, sizeof path, "%s/%s", out, name);
    FILE *file = size > 0 && (size_t)size < sizeof path ? fopen(path, "wb") : NULL;
    if (CHECK(file != NULL)) {
        CHECK(fwrite(bytes.bytes, 1, bytes.size, file) == bytes.size);
        CHECK(fclose(file) == 0);
    }
}

TEST(a_pdf_is_tagged_and_speaks_its_language)
{
    qll_canvas canvas = two_pages();
    qll_text pdf = pdf_of(&canvas);
    CHECK(pdf.size > 1000 && memcmp(pdf.bytes, "%PDF-1.4", 8) == 0);
    CHECK(has(pdf, "/Marked true"));
    CHECK(has(pdf, "/Lang <FEFF0065006E>"));
    /* "First figure (one)" and "Second figure: 1/2 in" in UTF-16, each at a figure. */
    CHECK(has(pdf, "/S /Figure\n   /Alt <FEFF00460069007200730074"));
    CHECK(has(pdf, "/S /Figure\n   /Alt <FEFF005300650063006F006E0064"));
    CHECK(has(pdf, "00BD00200069006E>"));
    CHECK(has(pdf, "/CreationDate (20260131120000Z)"));
    CHECK(has(pdf, "(https://example.org/a'b)"));
    CHECK(!has(pdf, "javascript"));
    save(pdf, "two_pages.pdf");
}

TEST(the_same_input_gives_the_same_bytes)
{
    qll_canvas one = two_pages();
    qll_canvas two = two_pages();
    CHECK(qll_text_equal(pdf_of(&one), pdf_of(&two)));
    qll_paper first;
    qll_paper second;
    CHECK(qll_png_write(&one, 0, 4, NULL, arena, &first) == QLL_OK);
    CHECK(qll_png_write(&two, 0, 4, NULL, arena, &second) == QLL_OK);
    CHECK(first.bytes.size > 100 && memcmp(first.bytes.bytes, "\x89PNG", 4) == 0);
    CHECK(qll_text_equal(first.bytes, second.bytes));
}

TEST(without_the_font_it_says_which_and_where)
{
    qll_canvas canvas = two_pages();
    qll_paper paper;
    CHECK(qll_pdf_write(&canvas, &about, "/nowhere", arena, &paper) == QLL_IO);
    CHECK(strstr(paper.why, "Inter-Regular.otf") != NULL);
    CHECK(strstr(paper.why, "/nowhere") != NULL);
    CHECK(strstr(paper.why, "fonts-inter") != NULL);
    CHECK(paper.bytes.bytes == NULL);
}

TEST(odd_text_is_drawn_all_the_same)
{
    static const qll_letters letters = {.size_mm = 3};
    char *lengthy = qll_arena_take(arena, 10001, 1);
    memset(lengthy, 'x', 10000);
    const char *const odd[] = {lengthy,
                               "<script>alert(1)</script>",
                               "\x01\x02\x1B[31m",
                               "\xE2\x80\xAE right to left",
                               "\xFF\xFE\xC3",
                               "\xE6\xB0\xB4\xF0\x9F\x92\xA7",
                               "\xD9\x85\xD8\xA7\xD8\xA1",
                               ") Tj (",
                               "%PDF endobj"};
    qll_canvas canvas = qll_canvas_new(100, 100, arena);
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        double y_mm = 5 + 10 * (double)i;
        qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_HEADING, (int)i - 1, odd[i]});
        (void)qll_canvas_text_box(&canvas, (qll_box){5, y_mm, 80, 9}, qll_text_of(odd[i]),
                                  &letters);
        qll_canvas_text(&canvas, (qll_xy){5, y_mm}, qll_text_of(odd[i]), &letters);
        qll_canvas_end(&canvas);
        qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_FIGURE, 0, odd[i]});
        qll_canvas_place(&canvas, (qll_xy){5, y_mm}, odd[i]);
        qll_canvas_end(&canvas);
    }
    save(pdf_of(&canvas), "odd.pdf");
    qll_paper paper;
    CHECK(qll_png_write(&canvas, 0, 4, NULL, arena, &paper) == QLL_OK);
}

TEST(marks_put_together_wrongly_are_drawn_all_the_same)
{
    qll_canvas canvas = qll_canvas_new(100, 100, arena);
    qll_canvas_place(&canvas, (qll_xy){5, 5}, "twice");
    qll_canvas_place(&canvas, (qll_xy){5, 9}, "twice");
    qll_canvas_place(&canvas, (qll_xy){5, 9}, "");
    qll_canvas_begin(&canvas, &(qll_mark){.kind = QLL_MARK_ROW});
    marked(&canvas, QLL_MARK_LINK, "#twice", 20, "a link");
    qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_LINK, 0, "#"});
    qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_LINK, 0, "#twice"});
    marked(&canvas, QLL_MARK_LINK, "#twice", 20, "a link in a link");
    qll_canvas_page(&canvas);
    words(&canvas, 30, "on two pages");
    qll_canvas_end(&canvas);
    qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_LINK, 0, "#twice"});
    qll_canvas_end(&canvas);
    CHECK(canvas.open_marks == 2);
    CHECK(pdf_of(&canvas).size > 100);
}

TEST(a_picture_has_a_size)
{
    qll_canvas canvas = two_pages();
    qll_paper paper;
    CHECK(qll_png_write(&canvas, 0, 0, NULL, arena, &paper) == QLL_IO);
    CHECK(qll_png_write(&canvas, 0, NAN, NULL, arena, &paper) == QLL_IO);
    qll_canvas vast = qll_canvas_new(1e5, 10, arena);
    CHECK(qll_png_write(&vast, 0, 4, NULL, arena, &paper) == QLL_IO);
}

TEST(without_memory_there_is_no_paper)
{
    qll_canvas canvas = two_pages();
    for (size_t nth = 1; nth < 40; nth++) {
        qll_arena *small = qll_arena_open((size_t)1 << 24);
        qll_arena_fail(small, nth, true);
        qll_paper paper;
        qll_status status = qll_pdf_write(&canvas, &about, NULL, small, &paper);
        CHECK(status == QLL_NO_MEMORY || (status == QLL_OK && nth > 5));
        qll_arena_close(small);
    }
}

int main(int count, char **arguments)
{
    out = count > 1 ? arguments[1] : ".";
    arena = qll_arena_open((size_t)1 << 26);
    TEST_RUN(a_pdf_is_tagged_and_speaks_its_language);
    TEST_RUN(the_same_input_gives_the_same_bytes);
    TEST_RUN(without_the_font_it_says_which_and_where);
    TEST_RUN(odd_text_is_drawn_all_the_same);
    TEST_RUN(marks_put_together_wrongly_are_drawn_all_the_same);
    TEST_RUN(a_picture_has_a_size);
    TEST_RUN(without_memory_there_is_no_paper);
    qll_arena_close(arena);
    return TEST_END();
}
