#include "documents/read_costs.h"
#include "documents/read_survey.h"

qll_status qll_tables_read(qll_arena *arena, qll_tables *tables)
{
    qll_status status = qll_pipe_table_read(arena, &tables->pipes);
    if (status == QLL_OK) {
        status = qll_meter_table_read(arena, &tables->meters);
    }
    if (status == QLL_OK) {
        status = qll_fixture_table_read(arena, &tables->fixtures);
    }
    if (status == QLL_OK) {
        status = qll_usual_table_read(arena, &tables->fixtures, &tables->usual);
    }
    if (status == QLL_OK) {
        status = qll_costs_read(arena, &tables->costs);
    }
    return status;
}
