/* quell site rank. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/stored.h"
#include "ranking/ranking.h"

static void complain_unchecked(const qll_cli_site *site, const qll_ranking_answer *made)
{
    for (size_t i = 0; i < made->unchecked_count; i++) {
        const qll_unchecked *one = &made->unchecked[i];
        qll_cli_complain(
            site->arena, site->line->language,
            (qll_said){QLL_TEXT_RECORD_NOT_CHECKED,
                       {qll_as_quoted(qll_text_of(one->name)), qll_as_is(one->problem)}});
    }
}

qll_status qll_cli_site_rank(const qll_cli_command *command, const qll_cli_line *line,
                             qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    qll_input catalogue = {0};
    qll_ranking_answer made = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_cli_read_option(line, QLL_CLI_CATALOGUE, arena, &catalogue);
    if (status != QLL_OK) {
        return status;
    }
    status = qll_cli_site_open(line, QLL_STORE_WRITE, arena, &site);
    if (status == QLL_OK) {
        const qll_ranking_plan plan = {
            .store = site.store, .telling = site.telling, .catalogue = catalogue};
        status = qll_cli_site_said(&site, qll_rank(&plan, arena, &made, &why), &why);
        complain_unchecked(&site, &made);
    }
    if (status == QLL_OK) {
        status = qll_cli_site_answer(&site, status, &made.answer);
    }
    qll_store_close(site.store);
    return status;
}
