/* Which way a spectrum goes, by published spectra alone: docs/theory/sound.md, 11. */
#include "check.h"
#include "signals/sound_frames.h"

#define QLL_THIRDS 20 /* 100 Hz to 8 kHz */

/* IEC 60534-8-4:2005, annex: example 1 is turbulent, example 2 cavitates; third octaves (tests/reference/noise_bands.csv, external level
 * at 1 m), by way of an open acoustics library. */
static const double turbulent_db[QLL_THIRDS] = {
    38.732, 41.637, 44.846, 47.736, 50.602, 53.508, 56.354, 58.694, 60.516, 61.490,
    61.584, 61.133, 60.296, 59.394, 58.420, 57.355, 56.181, 54.982, 53.571, 51.820};
static const double cavitating_db[QLL_THIRDS] = {
    42.828, 45.781, 49.052, 52.011, 54.969, 58.021, 61.136, 63.952, 66.657, 69.042,
    70.785, 72.190, 73.615, 74.808, 75.806, 76.592, 77.165, 77.502, 77.628, 77.441};

/* What is heard of a spectrum: third octaves, two halves each, behind a high pass of 12 dB an octave; 0 Hz: none. */
typedef struct heard {
    double medians[QLL_SOUND_BANDS];
    qll_sound_features features;
} heard;

static heard heard_of(const double third_db[QLL_THIRDS], double corner_hz)
{
    heard made = {.features = {.kurtosis = 3.0,
                               .bursts = 1.0,
                               .quiet_share = 1.0,
                               .bandwidth_hz = QLL_SOUND_BANDWIDTH_HZ}};
    for (size_t band = 0; band < QLL_SOUND_BANDS; band++) {
        const size_t third = band / 2 < QLL_THIRDS ? band / 2 : QLL_THIRDS - 1;
        const double middle_hz =
            sqrt(qll_sound_band_edge_hz(band) * qll_sound_band_edge_hz(band + 1));
        made.medians[band] =
            0.5 * pow(10.0, 0.1 * third_db[third]) / (1.0 + pow(corner_hz / middle_hz, 4.0));
    }
    qll_sound_shape(made.medians, &made.features);
    return made;
}

static qll_sound_kind kind_of(const heard *of)
{
    double scores[QLL_SOUND_KIND_COUNT];
    int kind = 0;
    qll_sound_score(&of->features, of->medians, NULL, scores);
    for (int i = 0; i < QLL_SOUND_KIND_COUNT; i++) {
        kind = scores[i] > scores[kind] ? i : kind;
    }
    return (qll_sound_kind)kind;
}

TEST(the_standards_examples_stand_over_flow_where_they_cavitate)
{
    CHECK_WITHIN(heard_of(turbulent_db, 0.0).features.over_flow_db, 0.82, 0.02);
    CHECK_WITHIN(heard_of(cavitating_db, 0.0).features.over_flow_db, 10.82, 0.02);
}

/* Phones' high passes: common practice, no source, but for 200 Hz (Acoustics Today, summer 2017). */
static const double corners_hz[] = {0.0, 60.0, 120.0, 220.0};
#define QLL_CORNERS (sizeof corners_hz / sizeof corners_hz[0])

TEST(what_comes_through_a_pipes_wall_falls_toward_the_lowest_notes)
{
    CHECK_WITHIN(heard_of(turbulent_db, 0.0).features.low_ratio_db, -17.87, 0.02);
    CHECK_WITHIN(heard_of(cavitating_db, 0.0).features.low_ratio_db, -29.71, 0.02);
    for (size_t i = 0; i < QLL_CORNERS; i++) {
        const heard flow = heard_of(turbulent_db, corners_hz[i]),
                    collapses = heard_of(cavitating_db, corners_hz[i]);
        CHECK(kind_of(&flow) == QLL_SOUND_RUSH);
        CHECK(kind_of(&collapses) == QLL_SOUND_HISS);
    }
}

/* The level of a third octave of a room by its octaves, 63 Hz to 8 kHz, straight between them. */
static double third_of(const double octave_db[8], size_t third)
{
    const double at = ((double)third + 2.0) / 3.0; /* octaves over 63 Hz */
    const size_t below = at < 6.0 ? (size_t)at : 6;
    return octave_db[below] + (at - (double)below) * (octave_db[below + 1] - octave_db[below])
           - 4.77;
}

/* Rooms at rest as ANSI S12.2 draws them (by way of an open acoustics library), and 1/f, the brightest. */
TEST(a_room_at_rest_is_none_through_any_phone)
{
    static const double rooms_db[][8] = {{57, 48, 41, 35, 31, 29, 28, 27},  /* NC-30 */
                                         {64, 56, 50, 45, 41, 39, 38, 37},  /* NC-40 */
                                         {50, 45, 40, 35, 30, 25, 20, 15},  /* RC 30 */
                                         {30, 30, 30, 30, 30, 30, 30, 30}}; /* 1/f */
    for (size_t room = 0; room < sizeof rooms_db / sizeof rooms_db[0]; room++) {
        double third_db[QLL_THIRDS];
        for (size_t third = 0; third < QLL_THIRDS; third++) {
            third_db[third] = third_of(rooms_db[room], third);
        }
        for (size_t i = 0; i < QLL_CORNERS; i++) {
            const heard at_rest = heard_of(third_db, corners_hz[i]);
            if (!CHECK(kind_of(&at_rest) == QLL_SOUND_NONE)) {
                printf("    room %zu behind %.0f Hz: %.1f dB\n", room, corners_hz[i],
                       at_rest.features.low_ratio_db);
            }
        }
    }
}

/* What a microphone makes itself, white, 36 dB with A (94 less the 58 of a poor one), behind the steepest high pass in a room of RC 20: the
 * sum over IEC 61672-1's curve is 41 dB. */
TEST(a_microphones_own_noise_in_a_quiet_room_is_none)
{
    double third_db[QLL_THIRDS];
    for (size_t third = 0; third < QLL_THIRDS; third++) {
        const double hz = 100.0 * pow(10.0, 0.1 * (double)third), wide_hz = 0.2316 * hz;
        const double room_db = 20.0 - 5.0 * log2(hz / 1000.0) - 4.77;
        const double own_db = 36.0 - 40.96 + 10.0 * log10(wide_hz);
        third_db[third] = 10.0 * log10(pow(10.0, 0.1 * room_db) + pow(10.0, 0.1 * own_db));
    }
    const heard quiet = heard_of(third_db, 220.0);
    CHECK(kind_of(&quiet) == QLL_SOUND_NONE);
}

int main(void)
{
    TEST_RUN(the_standards_examples_stand_over_flow_where_they_cavitate);
    TEST_RUN(what_comes_through_a_pipes_wall_falls_toward_the_lowest_notes);
    TEST_RUN(a_room_at_rest_is_none_through_any_phone);
    TEST_RUN(a_microphones_own_noise_in_a_quiet_room_is_none);
    return TEST_END();
}
