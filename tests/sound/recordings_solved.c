/* The same kinds a sixth way, written once what rises to the lowest notes was taken for a room before hiss was asked: equations that others published for each source,
 * solved in time.
 *
 * Rush: the velocity that a particle of turbulent water has by Sawford's stochastic equation, whose acceleration is heard. Hiss: bubbles that collapse and come again by
 * the equation of Rayleigh and Plesset, in clusters as Neyman and Scott's. Squeal: the amplitude equation of Stuart and Landau, its pitch St U / t with U as it is. Chatter: a
 * valve's disc, its spring and what fills before it, with a seat that throws it back (Licsko, Champneys and Hos, World Congress on Engineering 2009; the numbers from memory). Hammer: a
 * pipe's odd harmonics, each losing the more the higher it is, and a pipe that knocks against what holds it.
 * Ranges: C.4 of the method (8 to 55 blows a second, 4 to 7 notes from 150 to 3500 Hz; 100 to 16,000 collapses a second; rush with its peak at 250 to 900 Hz; rings
 * of 4 to 30 Hz; 8 to 25 dB over the noise where it is hard), our choice where it names none. All were set before a recording was listened to. */
#include "sound/recordings_solved.h"

static double times_db(double db)
{
    return pow(10.0, db / 20.0);
}

/* ---- flow ---- */

/* Sawford (Phys. Fluids A 3 (1991) 1577, from memory): velocity forgets in one time and acceleration in a shorter one. Two real
 * times, whose product is that of IEC 60534-8-4's peak, 1/(r^3/4 + 1/r); the wall lets acceleration through. */
typedef struct eddies {
    lag slow, fast;
} eddies;

static eddies eddies_of(stage *on)
{
    const double peak_hz = on->is_hard ? spread(on, 170, 1250) : spread(on, 250, 900);
    const double apart = spread(on, 1.0, 3.0);
    return (eddies){lag_of(on, sqrt(2.0) * peak_hz / sqrt(apart)),
                    lag_of(on, sqrt(2.0) * peak_hz * sqrt(apart))};
}

static double whirl(eddies *of, double x)
{
    const double before = of->slow.y;
    return behind(&of->slow, behind(&of->fast, x)) - before;
}

/* Adds flow of @p strength as its rms; @p open: how far it is open at each sample, NULL = always. */
static void add_flow(stage *on, double strength, const float *open)
{
    eddies of = eddies_of(on), same = of;
    double sum = 0.0;
    for (int j = 0; j < 60000; j++) {
        const double y = whirl(&same, normal(on));
        sum += y * y;
    }
    const double gain = strength / sqrt(sum / 60000.0);
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] += gain * whirl(&of, normal(on)) * (open == NULL ? 1.0 : (double)open[j]);
    }
}

/* ---- bubbles ---- */

#define QLL_SIZES 9
#define QLL_LONG  192 /* samples of a collapse and what comes after */

typedef struct bubbles {
    double pushes[QLL_SIZES][QLL_LONG];
} bubbles;

/* Keller and Miksis (J. Acoust. Soc. Am. 68 (1980) 628, from memory), of a bubble let go at @p most_m with little gas in it: the water
 * is so far stiff that a rebound loses what it radiates. What is heard is the second derivative of its volume: over a sample, the
 * change of R^2 R'. */
static void collapse(const stage *on, double most_m, double pressure_pa, double gas_share,
                     double pushes[QLL_LONG])
{
    const double density = 999.0, sound_m_s = 1480.0, stiffens = 4.2; /* three times 1.4 */
    double r = most_m, v = 0.0, t = 0.0, before = 0.0;
    for (int j = 0; j < QLL_LONG; j++) {
        const double end = (j + 1) / on->rate_hz;
        while (t < end) {
            const double mach = v / sound_m_s;
            const double gas_pa = gas_share * pressure_pa * pow(most_m / r, stiffens);
            const double pushed =
                (1.0 + mach - stiffens * mach) * gas_pa - (1.0 + mach) * pressure_pa;
            const double a =
                (pushed / density - 1.5 * v * v * (1.0 - mach / 3.0)) / (r * (1.0 - mach));
            const double step = fmin(2e-7, 0.002 * r / (fabs(v) + 1.0));
            v = fmax(-sound_m_s, fmin(v + step * a, 0.5 * sound_m_s));
            r = fmax(r + step * v, 0.01 * most_m);
            t += step;
        }
        const double now = r * r * v;
        pushes[j] = now - before;
        before = now;
    }
}

static void add_push(stage *on, const double pushes[QLL_LONG], double at_s, double height)
{
    const size_t from = (size_t)(at_s * on->rate_hz);
    for (size_t j = 0; j < QLL_LONG && from + j < on->count; j++) {
        on->out[from + j] += height * pushes[j];
    }
}

/* Clusters come by chance, and each holds a few collapses close to each other (Neyman and Scott 1958, from memory). */
static void add_clusters(stage *on, const bubbles *of, double per_s)
{
    const double in_one = within(on, 1.0, 6.0), close_s = spread(on, 3e-4, 3e-3);
    const double end_s = (double)on->count / on->rate_hz, sizes = within(on, 1.0, 2.2);
    double at_s = 0.0;
    while (at_s < end_s) {
        double one_s = at_s;
        do {
            const double size = 0.5 * (QLL_SIZES - 1) + sizes * normal(on);
            const int which = (int)fmax(0.0, fmin(QLL_SIZES - 1, rint(size)));
            add_push(on, of->pushes[which], one_s, within(on, 0.4, 1.6));
            one_s += -log(1.0 - qll_random_unit(&on->random)) * close_s;
        } while (chance(on, 1.0 - 1.0 / in_one));
        at_s += -log(1.0 - qll_random_unit(&on->random)) * in_one / per_s;
    }
}

static void solve_hiss(stage *on)
{
    static bubbles of;
    const double per_s = on->is_hard ? spread(on, 60, 40000) : spread(on, 100, 16000);
    const double middle_m = spread(on, 2e-4, 1e-3), pressure_pa = spread(on, 1e5, 5e5);
    const double gas_share = spread(on, 0.005, 0.05);
    for (int i = 0; i < QLL_SIZES; i++) {
        const double most_m = middle_m * pow(2.0, 0.5 * (i - 0.5 * (QLL_SIZES - 1)));
        collapse(on, most_m, pressure_pa, gas_share, of.pushes[i]);
    }
    add_clusters(on, &of, per_s);
    /* the wall, and bubbly water before it, that keeps back the highest */
    lag cloud = lag_of(on, spread(on, 2500, 7000)), again = lag_of(on, spread(on, 4000, 9000));
    double before = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        const double now = behind(&again, behind(&cloud, on->out[j]));
        on->out[j] = now - before;
        before = now;
    }
    to_unit(on);
    add_flow(on, times_db(on->is_hard ? within(on, -11, 0) : within(on, -18, -4)), NULL);
}

/* ---- a tone ---- */

/* dA/dt = g A (1 - (1 + ib) |A|^2) + chance, in a frame that turns with the tone. */
static void solve_squeal(stage *on)
{
    double tone_hz = 0.0, thick_m = 0.0, strouhal = 0.0, velocity_m_s = 0.0;
    do {
        strouhal = within(on, 0.2, 0.35);
        thick_m = spread(on, 0.001, 0.005);
        velocity_m_s = within(on, 9, 36);
        tone_hz = strouhal * velocity_m_s / thick_m;
    } while (tone_hz < 420.0 || tone_hz > 7500.0);
    const double grows = spread(on, 0.01, 0.08) * tone_hz, bends = within(on, -0.5, 0.5);
    const double shove = on->is_hard ? spread(on, 0.02, 0.25) : spread(on, 0.005, 0.08);
    const double moves = on->is_hard ? within(on, 0.0, 0.04) : within(on, 0.0, 0.015);
    const double deep = within(on, 0.0, on->is_hard ? 0.7 : 0.5), deep_hz = spread(on, 0.2, 5);
    const double second = within(on, 0.0, 0.35), third = within(on, 0.0, 0.2);
    const double dt = 1.0 / on->rate_hz, stays = shove * sqrt(2.0 * grows * dt);
    double re = 0.1, im = 0.0, phase = 0.0, velocity = 1.0, goes_to = 1.0;
    for (size_t j = 0; j < on->count; j++) {
        if (chance(on, dt / 1.5)) { /* somebody draws more or less */
            goes_to = 1.0 + moves * within(on, -1, 1);
        }
        velocity += (goes_to - velocity) * dt / 0.3;
        const double gain = grows * (1.0 + deep * sin(QLL_TWO_PI * deep_hz * (double)j * dt));
        const double size = re * re + im * im, rise = gain - grows * size;
        const double turn = -grows * bends * size;
        const double re_now = re + dt * (rise * re - turn * im) + stays * normal(on);
        im += dt * (rise * im + turn * re) + stays * normal(on);
        re = re_now;
        phase += QLL_TWO_PI * strouhal * velocity_m_s * velocity / thick_m * dt;
        const double y = re * cos(phase) - im * sin(phase);
        on->out[j] = y + second * y * y + third * y * y * y;
    }
    to_unit(on);
    add_flow(on, times_db(on->is_hard ? within(on, -9, 2) : within(on, -20, -7)), NULL);
}

/* ---- a disc, its spring and its seat ---- */

/* y1' = y2, y2' = -k y2 - (y1 + d) + y3, y3' = b (q - y1 sqrt(y3)), y2 turned back by the seat. */
typedef struct valve_motion {
    double lift, speed, pressure, supply, wander;
    bool sits;
} valve_motion;

/* A step of @p dt; how fast it struck the seat, 0 where it did not. */
static double solve_valve(stage *on, valve_motion *of, double dt, double uneven)
{
    const double damped = 1.25, fills = 20.0, preload = 10.0, bounces = 0.8;
    of->wander += -of->wander * dt / 2.0 + uneven * sqrt(dt) * normal(on);
    of->pressure +=
        dt * fills
        * (of->supply * fmax(0.2, 1.0 + of->wander) - of->lift * sqrt(fmax(of->pressure, 0.0)));
    of->pressure = fmax(of->pressure, 1e-3);
    if (of->sits && of->pressure <= preload) {
        return 0.0;
    }
    of->sits = false;
    of->speed += dt * (-damped * of->speed - (of->lift + preload) + of->pressure);
    of->lift += dt * of->speed;
    if (of->lift > 0.0) {
        return 0.0;
    }
    const double struck = fmax(0.0, -of->speed);
    of->lift = 0.0;
    of->speed = bounces * struck < 0.05 ? 0.0 : bounces * struck;
    of->sits = of->speed <= 0.0 && of->pressure <= preload;
    return struck;
}

/* How many of its units of time one turn takes: by the openings of a hundred. */
static double turn_of(stage *on, double supply)
{
    valve_motion of = {.pressure = 10.0, .supply = supply};
    double hardest = 0.0;
    int turns = 0;
    for (int i = 0; i < 150000; i++) {
        const double struck = solve_valve(on, &of, 1e-3, 0.0);
        hardest = i < 50000 ? fmax(hardest, struck) : hardest;
        turns += i >= 50000 && struck > 0.6 * hardest;
    }
    return 100.0 / fmax(turns, 1);
}

static void solve_chatter(stage *on, float *open)
{
    springs seat = {.count = 0};
    const int notes = 4 + (int)within(on, 0, 3.999);
    for (int i = 0; i < notes; i++) {
        add_spring(on, &seat, spread(on, 150, 3500), spread(on, 0.01, 0.07), within(on, 0.2, 1.0));
    }
    valve_motion of = {.pressure = 10.0, .supply = within(on, 1.0, 5.0)};
    const double blows_hz = on->is_hard ? within(on, 7, 58) : within(on, 8, 55);
    const double uneven = on->is_hard ? within(on, 0.02, 0.12) : within(on, 0.01, 0.08);
    const double whole = turn_of(on, of.supply) * blows_hz / on->rate_hz;
    const int steps = 1 + (int)(whole / 5e-4);
    const double long_s = spread(on, 8e-5, 5e-4), leaks = within(on, 0.0, 0.5);
    double since_s = 1.0, height = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        double struck = 0.0;
        for (int i = 0; i < steps; i++) {
            struck = fmax(struck, solve_valve(on, &of, whole / steps, uneven));
        }
        if (struck > 0.0) {
            since_s = 0.0;
            height = struck;
        }
        /* Hertz's contact is all but a squared sine */
        const double part = sin(0.5 * QLL_TWO_PI * since_s / long_s);
        const double force = since_s < long_s ? height * part * part : 0.0;
        since_s += 1.0 / on->rate_hz;
        on->out[j] = move(&seat, force);
        open[j] =
            (float)(leaks + (1.0 - leaks) * fmin(2.0, of.lift * sqrt(of.pressure) / of.supply));
    }
    to_unit(on);
    add_flow(on, times_db(on->is_hard ? within(on, -11, 1) : within(on, -20, -7)), open);
}

/* ---- a pipe whose flow stops ---- */

static void solve_hammer(stage *on)
{
    springs clips = {.count = 0}, knocks = {.count = 0};
    for (int i = 0; i < 3; i++) {
        add_spring(on, &clips, spread(on, 60, 350), spread(on, 0.04, 0.15), within(on, 0.3, 1.0));
        add_spring(on, &knocks, spread(on, 250, 1200), spread(on, 0.03, 0.1), within(on, 0.2, 1.0));
    }
    const double ring_hz = spread(on, 4, 30), dies_s = spread(on, 0.05, 0.4);
    const double front_s = spread(on, 0.003, 0.02), knocked = within(on, 0.0, 0.5);
    const int closings = 1 + (int)within(on, 0, 1.999);
    const double at_s[2] = {within(on, 0.6, 4.4), within(on, 5.2, 8.8)};
    double before = 0.0, far = 0.0, was_at = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        double pressure = 0.0;
        for (int i = 0; i < 2 && i < closings; i++) {
            const double t = (double)j / on->rate_hz - at_s[i];
            for (int k = 1; t >= 0.0 && t < 8.0 * dies_s && k <= 15; k += 2) {
                const double blurred = exp(-pow(0.5 * k * ring_hz * front_s, 2));
                pressure +=
                    blurred / k * exp(-t * sqrt(k) / dies_s) * sin(QLL_TWO_PI * k * ring_hz * t);
            }
        }
        on->out[j] = move(&clips, pressure - before);
        far = fmax(far * (1.0 - 1.0 / on->rate_hz), fabs(clips.x[0]));
        const bool reaches = clips.x[0] > 0.7 * far && was_at <= 0.7 * far;
        on->out[j] += move(&knocks, reaches ? knocked * 20.0 * fabs(clips.v[0]) : 0.0);
        was_at = clips.x[0];
        before = pressure;
    }
    double loudest = 1e-12;
    const size_t window = (size_t)(0.05 * on->rate_hz);
    for (size_t j = 0; j + window <= on->count; j += window / 2) {
        loudest = fmax(loudest, rms(on->out + j, window));
    }
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] /= loudest;
    }
    add_flow(on, times_db(on->is_hard ? within(on, -20, -9) : within(on, -35, -18)), NULL);
}

static void solve(stage *on, recording_kind kind, float *open)
{
    switch (kind) {
    case QLL_RECORDING_SQUEAL: solve_squeal(on); break;
    case QLL_RECORDING_HISS: solve_hiss(on); break;
    case QLL_RECORDING_CHATTER: solve_chatter(on, open); break;
    case QLL_RECORDING_HAMMER: solve_hammer(on); break;
    case QLL_RECORDING_RUSH: add_flow(on, 1.0, NULL); break;
    case QLL_RECORDING_NONE: solve_none(on); break;
    case QLL_RECORDING_OTHER:
    case QLL_RECORDING_COUNT: solve_other(on); break;
    }
}

recording recording_make_solved(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena)
{
    stage on = {.random = qll_random_seeded(seed * 32452843 + (uint64_t)kind * 2 + is_hard),
                .is_hard = is_hard};
    on.rate_hz = chance(&on, 0.5) ? 48000 : 44100;
    on.count = (size_t)on.rate_hz * QLL_RECORDING_SECONDS;
    recording made = {.rate_hz = on.rate_hz, .count = on.count};
    made.samples = qll_arena_take(arena, on.count, sizeof *made.samples);
    const qll_arena_mark mark = qll_arena_now(arena);
    on.out = qll_arena_take(arena, on.count, sizeof *on.out);
    if (made.samples != NULL && on.out != NULL) {
        solve(&on, kind, made.samples);
        solve_phone(&on, kind, made.samples);
    }
    qll_arena_reset(arena, mark);
    return made;
}
