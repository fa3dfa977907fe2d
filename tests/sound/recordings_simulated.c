/* The same kinds a third way, written after the rules knew bursts: what happens in the valve and the pipe is simulated, and the sound
 * follows from it. A valve's size, opening and pressures are drawn; IEC 60534-8-4 says which peak its flow has, whether it cavitates, and how much
 * of the power is cavitation's.
 *
 * Rush: that turbulence, through the wall. Hiss: beside it bubbles of several sizes about the standard's peak of cavitation, whose clouds are shed. Squeal: a jet's edge tone that a pipe hands back to it, late. Chatter: a disc that shuts the flow, bounces with D.2's
 * restitution, and strikes the body. Hammer: the flow stops, and the wave that runs to and fro shoves the pipe in its clips. None: a fan, a
 * refrigerator, traffic, perhaps a clock. Other: somebody talks, plucks strings, or washes dishes. Ranges are our choice. */
#include "sound/recordings_simulated.h"

/* ---- the valve ---- */

typedef struct valve {
    double peak_hz;     /* f_pt */
    double over_onset;  /* xF over xFzp1 */
    double cavitating;  /* eta_c over eta_t */
    double collapse_hz; /* f_pc */
    double velocity_m_s;
} valve;

/* IEC 60534-8-4:2005, 1 to 12, with the annex's Strouhal number; a house's or a block's valve somewhere on its travel. */
static valve draw_valve(stage *on)
{
    static const double bores_m[] = {0.015, 0.02, 0.025, 0.032, 0.04, 0.05};
    const double bore_m = bores_m[(size_t)within(on, 0, 5.999)];
    const double cv = spread(on, 0.03, 0.5) * 14.0 * pow(bore_m / 0.025, 2);
    const double fd = within(on, 0.3, 0.5), fl = within(on, 0.85, 0.95);
    const double p2 = within(on, 3e5, 6.5e5), drop = within(on, 1e5, 8e5), pv = 1700, density = 999;
    const double above_vapor = p2 + drop - pv, xf = drop / above_vapor;
    const double xfz = 0.9 / sqrt(1.0 + 3.0 * fd * sqrt(cv / (1.17 * fl)));
    const double onset = xfz * pow(6e5 / (p2 + drop), 0.125);
    const double driving = fmin(drop, fl * fl * above_vapor);
    const double velocity = sqrt(2.0 * driving / density) / fl;
    const double jet_m = 0.0046 * fd * sqrt(cv * fl);
    const double strouhal = 0.036 * fl * fl * cv * pow(fd, 0.75)
                            / (1.17 * pow(onset, 1.5) * bore_m * bore_m)
                            * pow(1.0 / above_vapor, 0.57);
    valve made = {
        .peak_hz = strouhal * velocity / jet_m, .over_onset = xf / onset, .velocity_m_s = velocity};
    if (xf > onset && xf < 0.85) {
        made.collapse_hz =
            6.0 * made.peak_hz * pow((1.0 - xf) / (1.0 - onset), 2) * pow(onset / xf, 2.5);
        made.cavitating = 0.32 * sqrt(drop / driving / onset) * exp(5.0 * onset)
                          * sqrt((1.0 - onset) / (1.0 - xf)) * pow(xf / onset, 5)
                          * pow(xf - onset, 1.5);
    }
    return made;
}

/* One that is so far beyond its onset of cavitation. */
static valve valve_at(stage *on, double low, double high)
{
    for (;;) {
        const valve drawn = draw_valve(on);
        const bool is_usual = drawn.peak_hz > 150 && drawn.peak_hz < 900;
        if (drawn.over_onset >= low && drawn.over_onset <= high && (on->is_hard || is_usual)
            && (low < 1.0 || drawn.cavitating > 0.0)) {
            return drawn;
        }
    }
}

static valve quiet_valve(stage *on)
{
    return valve_at(on, 0.2, on->is_hard ? 1.0 : 0.9);
}

/* The standard's shape of turbulence, 1/(r^3/4 + 1/r) a third octave, is a Butterworth filter of second order at sqrt(2) f_pt. */
static two_pole turbulence_of(const stage *on, const valve *of)
{
    return filter_of(on, QLL_PASS_LOW, sqrt(2.0) * of->peak_hz, sqrt(0.5));
}

/* The wall lets through in proportion to the frequency; the pipe hands some of it back. */
static void leave_pipe(stage *on)
{
    double before = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        const double now = on->out[j];
        on->out[j] = now - before;
        before = now;
    }
    const size_t late = (size_t)(2.0 * within(on, 0.3, 5.0) / 1300.0 * on->rate_hz);
    const double back = -within(on, 0.1, on->is_hard ? 0.5 : 0.35);
    for (size_t j = late; j < on->count; j++) {
        on->out[j] += back * on->out[j - late];
    }
    to_unit(on);
}

/* Adds the flow of @p of, that many dB over what is there at rms 1; lift[j] (NULL = 1) lets it through. */
static void add_flow(stage *on, const valve *of, double relative_db, const float *lift)
{
    two_pole shape = turbulence_of(on, of);
    double before = 0.0, sum = 0.0;
    for (int j = 0; j < 40000; j++) {
        const double now = pass(&shape, normal(on));
        sum += (now - before) * (now - before);
        before = now;
    }
    const double gain = pow(10.0, relative_db / 20.0) / sqrt(sum / 40000.0);
    for (size_t j = 0; j < on->count; j++) {
        const double now = pass(&shape, normal(on));
        on->out[j] += gain * (now - before) * (lift == NULL ? 1.0 : (double)lift[j]);
        before = now;
    }
}

static void make_rush(stage *on)
{
    const valve of = quiet_valve(on);
    two_pole shape = turbulence_of(on, &of);
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] = pass(&shape, normal(on));
    }
    leave_pipe(on);
}

/* Sizes of bubbles by class, the usual one with its peak at f_pc: a larger one takes longer, and pushes the more. */
#define QLL_SIZES 5

static double share_at(const stage *on, double hz)
{
    return 1.0 - exp(-QLL_TWO_PI * hz / on->rate_hz);
}

typedef struct bubbles {
    double share, strength;
    double rises, falls,
        forgets; /* shares of a sample: of the push's end and middle, and of what it takes back */
    double first, second, owed;
} bubbles;

static double collapses(stage *on, bubbles *of, double expected)
{
    double push = 0.0;
    double rest = expected * of->share;
    while (rest > 0.0) {
        push += chance(on, fmin(rest, 0.5)) ? of->strength * within(on, 0.3, 1.7) : 0.0;
        rest -= 0.5;
    }
    of->first += of->rises * (push - of->first);
    of->second += of->falls * (of->first - of->second);
    of->owed += of->forgets * (of->second - of->owed);
    return of->second - of->owed;
}

static void add_bubbles(stage *on, const valve *of)
{
    const double per_s = on->is_hard ? spread(on, 100, 200000) : spread(on, 300, 30000);
    bubbles sizes[QLL_SIZES];
    double all = 0.0;
    const int middle = QLL_SIZES / 2;
    for (int i = 0; i < QLL_SIZES; i++) {
        const double sigmas = i - middle, larger = exp(0.5 * sigmas);
        const double peak_hz = of->collapse_hz / larger;
        sizes[i] = (bubbles){.share = exp(-0.5 * sigmas * sigmas),
                             .strength = larger * larger,
                             .rises = share_at(on, 4.0 * peak_hz),
                             .falls = share_at(on, peak_hz),
                             .forgets = share_at(on, 0.3 * peak_hz)};
        all += sizes[i].share;
    }
    double cloud = 0.0;
    const double shed_hz = spread(on, 5, 60);
    for (size_t j = 0; j < on->count; j++) { /* clouds are shed: more of them now, fewer then */
        cloud += -cloud * shed_hz / on->rate_hz + normal(on) * sqrt(2.0 * shed_hz / on->rate_hz);
        const double expected = per_s / on->rate_hz * exp(0.4 * cloud - 0.08) / all;
        on->out[j] = 0.0;
        for (int i = 0; i < QLL_SIZES; i++) {
            on->out[j] += collapses(on, &sizes[i], expected);
        }
    }
    to_unit(on);
}

static void make_hiss(stage *on)
{
    const valve of = on->is_hard ? valve_at(on, 1.1, 1.7) : valve_at(on, 1.2, 1.7);
    add_bubbles(on, &of);
    two_pole shape = turbulence_of(on, &of);
    double sum = 0.0;
    for (int j = 0; j < 40000; j++) {
        const double x = pass(&shape, normal(on));
        sum += x * x;
    }
    const double gain = sqrt(1.0 / of.cavitating / (sum / 40000.0));
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] += gain * pass(&shape, normal(on));
    }
    leave_pipe(on);
}

/* The jet's tone, St U / t, comes back from the pipe after so many periods and drives the jet again, which can do no more than it can. */
static void make_squeal(stage *on)
{
    const valve of = quiet_valve(on);
    double tone_hz = 0.0;
    do {
        tone_hz = within(on, 0.2, 0.35) * of.velocity_m_s / spread(on, 0.001, 0.005);
        tone_hz *= spread(on, 0.8, 1.25);
    } while (tone_hz < 400.0 || tone_hz > 8000.0);
    const double periods = floor(within(on, 2, 9));
    const size_t late = (size_t)(periods * on->rate_hz / tone_hz);
    const double gain = on->is_hard ? within(on, 1.15, 1.6) : within(on, 1.3, 2.5);
    const double shove = on->is_hard ? spread(on, 0.05, 0.3) : spread(on, 0.01, 0.1);
    two_pole jet = filter_of(on, QLL_PASS_BAND, tone_hz, within(on, 4, 8));
    for (size_t j = 0; j < on->count; j++) {
        const double back = j >= late ? on->out[j - late] : 0.0;
        on->out[j] = pass(&jet, gain * tanh(1.5 * back) / 1.5 + shove * normal(on));
    }
    to_unit(on);
    add_flow(on, &of, on->is_hard ? within(on, -9, 4) : within(on, -20, -5), NULL);
    to_unit(on);
}

/* Half a sine of force, @p long_s long, from @p at_s on. */
static void strike(const stage *on, double *force, double at_s, double long_s, double height)
{
    const size_t from = (size_t)(at_s * on->rate_hz), long_by = (size_t)(long_s * on->rate_hz) + 2;
    for (size_t i = 0; i < long_by && from + i < on->count; i++) {
        force[from + i] += height * sin(0.5 * QLL_TWO_PI * ((double)i + 0.5) / (double)long_by);
    }
}

static void make_chatter(stage *on, float *lift)
{
    const double period_s = 1.0 / within(on, 8, on->is_hard ? 55 : 45);
    const double jitter = on->is_hard ? within(on, 0.03, 0.08) : within(on, 0.01, 0.05);
    const double contact_s = spread(on, 0.0001, 0.0005), shut = within(on, 0.1, 0.5);
    double at_s = 0.02;
    while (at_s < QLL_RECORDING_SECONDS - 0.2) {
        const double whole_s = period_s * (1.0 + jitter * normal(on));
        double hit_s = at_s, height = exp(0.25 * normal(on)), flight_s = 0.12 * whole_s;
        for (int bounce = 0; bounce < 3; bounce++) { /* restitution 0.3 */
            strike(on, on->out, hit_s, contact_s, height);
            hit_s += flight_s;
            height *= 0.3;
            flight_s *= 0.3;
        }
        double t = 0.0;
        while (t < whole_s) {
            const size_t j = (size_t)((at_s + t) * on->rate_hz);
            if (j < on->count) {
                lift[j] = t < shut * whole_s ? 0.15F : 1.0F;
            }
            t += 1.0 / on->rate_hz;
        }
        at_s += fmax(whole_s, 0.3 * period_s);
    }
    body seat = body_of(on, 4 + (size_t)within(on, 0, 3.99), 150, 3500);
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] = ring(&seat, on->out[j]);
    }
    to_unit(on);
    const valve of = quiet_valve(on);
    add_flow(on, &of, on->is_hard ? within(on, -10, 2) : within(on, -20, -7), lift);
    to_unit(on);
}

/* Flow before a valve shuts, and then, half a period of the pipe apart, shoves that die away. */
static void make_hammer(stage *on)
{
    const int closings = chance(on, 0.5) ? 1 : 2;
    const double ring_hz = spread(on, 4, 30), keeps = within(on, 0.4, 0.75);
    const double shut_s = fmin(spread(on, 0.004, 0.02), 0.3 / ring_hz);
    body clips = body_of(on, 4, 60, 300), rattle = body_of(on, 3, 300, 1500);
    double *force = on->out;
    for (int i = 0; i < closings; i++) {
        double at_s = within(on, 0.8 + 4.5 * i, 4.2 + 4.5 * i), height = 1.0;
        for (int wave = 0; wave < 7; wave++) {
            strike(on, force, at_s, shut_s, (wave % 2 == 0 ? 1.0 : -1.0) * height);
            for (int tap = 0; tap < 2; tap++) { /* the pipe knocks against the stud */
                strike(on, force, at_s + within(on, 0.002, 0.02), 0.0008,
                       0.3 * height * within(on, 0, 1));
            }
            at_s += 0.5 / ring_hz;
            height *= keeps;
        }
    }
    for (size_t j = 0; j < on->count; j++) {
        const double now = force[j];
        on->out[j] = ring(&clips, now) + 0.3 * ring(&rattle, now);
    }
    double loudest = 0.0;
    const size_t window = (size_t)(0.05 * on->rate_hz);
    for (size_t j = 0; j + window <= on->count; j += window / 2) {
        loudest = fmax(loudest, rms(on->out + j, window));
    }
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] /= loudest;
    }
    const valve of = quiet_valve(on);
    add_flow(on, &of, on->is_hard ? within(on, -20, -9) : within(on, -35, -18), NULL);
}

recording recording_make_simulated(recording_kind kind, bool is_hard, uint64_t seed,
                                   qll_arena *arena)
{
    static void (*const makers[QLL_RECORDING_COUNT])(stage *) = {
        [QLL_RECORDING_SQUEAL] = make_squeal, [QLL_RECORDING_HISS] = make_hiss,
        [QLL_RECORDING_HAMMER] = make_hammer, [QLL_RECORDING_RUSH] = make_rush,
        [QLL_RECORDING_NONE] = simulate_none, [QLL_RECORDING_OTHER] = simulate_other};
    stage on = {.random = qll_random_seeded(seed * 7919 + (uint64_t)kind * 2 + is_hard),
                .is_hard = is_hard};
    on.rate_hz = chance(&on, 0.5) ? 48000 : 44100;
    on.count = (size_t)on.rate_hz * QLL_RECORDING_SECONDS;
    recording made = {.rate_hz = on.rate_hz, .count = on.count};
    made.samples = qll_arena_take(arena, on.count, sizeof *made.samples);
    const qll_arena_mark mark = qll_arena_now(arena);
    on.out = qll_arena_take(arena, on.count, sizeof *on.out);
    if (kind == QLL_RECORDING_CHATTER) {
        make_chatter(&on, made.samples); /* room for its lift */
    } else {
        makers[kind](&on);
    }
    simulate_phone(&on, kind, made.samples);
    qll_arena_reset(arena, mark);
    return made;
}
