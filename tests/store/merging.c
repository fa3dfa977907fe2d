/* Three phones and a store: edits, spells without a network, lost answers, repeats, another order, clocks that are a year off, a store whose
 * power fails, and one that is put back from an older backup. Whatever happens, all end with the same set, every acknowledged record in it, every conflict visible. What stands is worked out here by the
 * sentences of docs/theory/records.md 2, pair by pair, apart from the store. A run that fails is shrunk and printed.
 *
 *     merging [RUNS [SEED]]
 */
#include "dropping_disk.h"
#include "merging_end.h"

/** X(NAME): what may happen. */
#define STEP_LIST(X) \
    X(FACT)          \
    X(CORRECT)       \
    X(EDIT)          \
    X(SETTLE)        \
    X(PUSH)          \
    X(PUSH_LOST)     \
    X(PUSH_MIXED)    \
    X(PULL)          \
    X(PULL_LOST)     \
    X(POWER_CUT)     \
    X(BACKUP)        \
    X(RESTORE)

typedef enum step_kind {
#define STEP_NAME(name) STEP_##name,
    STEP_LIST(STEP_NAME)
#undef STEP_NAME
    STEP_COUNT
} step_kind;

static const char *const step_words[STEP_COUNT] = {
#define STEP_WORD(name) #name,
    STEP_LIST(STEP_WORD)
#undef STEP_WORD
};

typedef struct step {
    step_kind kind;
    unsigned phone;
    uint64_t chance; /* what it is drawn from */
} step;

/* ---- what a phone does ---- */

static unsigned draw(uint64_t *chance, unsigned below)
{
    const unsigned drawn = (unsigned)(*chance % below);
    *chance = *chance / below * 6364136223846793005U + 1442695040888963407U;
    return drawn;
}

/* Clocks run by the step; the third phone's is a year behind. */
static void stamp(world *w, unsigned phone_number, qll_record *record)
{
    record->written_ms =
        1795322400000 + (long long)w->count * 60000 - (phone_number == 2 ? 31557600000LL : 0);
}

static void make(world *w, unsigned phone_number, qll_record record)
{
    phone *p = &w->phones[phone_number];
    if (w->count == RECORDS) {
        return;
    }
    stamp(w, phone_number, &record);
    w->made[w->count] = record;
    p->has[w->count] = true;
    p->queue[p->queued] = w->count;
    p->queued += 1;
    w->count += 1;
}

/* A record that the phone has, of facts or of a document; RECORDS where there is none. */
static unsigned pick(const world *w, const phone *p, bool is_fact, uint64_t *chance)
{
    const unsigned from = w->count == 0 ? 0 : draw(chance, w->count);
    for (unsigned i = 0; i < w->count; i++) {
        const unsigned number = (from + i) % w->count;
        if (p->has[number] && (w->made[number].document == NULL) == is_fact) {
            return number;
        }
    }
    return RECORDS;
}

static qll_record new_record(world *w, qll_record_kind kind, unsigned site)
{
    return scene_record(w->scene.arena, w->count + 1, kind, FIRST_SITE + site);
}

static void make_fact(world *w, unsigned phone_number, uint64_t chance, bool corrects)
{
    qll_record record = new_record(w, QLL_RECORD_VISIT, draw(&chance, 2));
    record.title = "service";
    record.day = "2026-11-20";
    if (corrects) {
        const unsigned old = pick(w, &w->phones[phone_number], true, &chance);
        if (old == RECORDS) {
            return;
        }
        record.corrects = w->made[old].id;
    }
    make(w, phone_number, record);
}

/* A version from one that stands as far as the phone knows, or from all of them. */
static void make_version(world *w, unsigned phone_number, uint64_t chance, bool settles)
{
    const phone *p = &w->phones[phone_number];
    const unsigned document = draw(&chance, DOCUMENTS);
    const bool is_site = document < 2;
    const bool is_moved = !is_site && draw(&chance, 4) == 0;
    qll_record record = new_record(w, is_site ? QLL_RECORD_SITE : QLL_RECORD_PLAN,
                                   (document + (is_moved ? 1 : 0)) % 2);
    record.document =
        scene_id(w->scene.arena, (is_site ? FIRST_SITE : FIRST_SITE + 50) + document % 2);
    record.title = is_site ? "A site" : NULL;
    record.words = record.title;
    record.every_months = is_site ? 0 : 1 + (int)draw(&chance, 12);
    for (unsigned i = 0; i < w->count; i++) {
        if (p->has[i] && same_id(w->made[i].document, record.document) && stands(w, p->has, i)
            && record.parent_count < (settles ? QLL_RECORD_PARENTS : 1)) {
            record.parents[record.parent_count] = w->made[i].id;
            record.parent_count += 1;
        }
    }
    if (!settles || record.parent_count > 1) {
        make(w, phone_number, record);
    }
}

/* ---- the network ---- */

static void know(world *w, phone *p, long long receipt)
{
    if ((receipt > p->known || p->mark[0] == '\0')
        && qll_store_mark(w->scene.store, receipt, p->mark, &w->scene.why) == QLL_OK) {
        p->known = receipt;
    }
}

static void wait_for(phone *p, unsigned number)
{
    size_t at = 0;
    while (at < p->queued && p->queue[at] != number) {
        at += 1;
    }
    p->queue[at] = number;
    p->queued += at == p->queued ? 1 : 0;
}

/* The store's mark of what the phone knew last is another one: it takes all there is, and sends what it has more. */
static void start_over_if_told(world *w, unsigned phone_number)
{
    phone *p = &w->phones[phone_number];
    char mark[QLL_STORE_MARK_SIZE];
    qll_records all = {0};
    if (p->mark[0] == '\0') {
        return;
    }
    if (qll_store_mark(w->scene.store, p->known, mark, &w->scene.why) != QLL_OK) {
        fail(w, "a mark could not be read");
        return;
    }
    if (strcmp(mark, p->mark) == 0) {
        return;
    }
    if (qll_store_changes(w->scene.store, 0, RECORDS, w->scene.arena, &all, &w->scene.why)
        != QLL_OK) {
        fail(w, "changes could not be read");
        return;
    }
    bool there[RECORDS] = {false};
    for (size_t i = 0; i < all.count; i++) {
        there[number_of(&all.list[i])] = true;
    }
    for (unsigned i = 0; i < w->count; i++) {
        if (p->has[i] && !there[i]) {
            wait_for(p, i);
        }
        p->has[i] = p->has[i] || there[i];
    }
    p->pulled = (long long)all.count;
    p->mark[0] = '\0';
    know(w, p, p->pulled);
}

static void push(world *w, unsigned phone_number, uint64_t chance, bool answer_is_lost,
                 bool is_mixed)
{
    phone *p = &w->phones[phone_number];
    start_over_if_told(w, phone_number);
    qll_record batch[8];
    unsigned numbers[8];
    qll_put puts[8];
    size_t count = 0;
    const size_t most = 1 + draw(&chance, 8);
    for (size_t i = 0; i < p->queued && count < most; i++) {
        /* Mixed: any of the queue, in any order, some of them twice. */
        numbers[count] = is_mixed ? p->queue[draw(&chance, (unsigned)p->queued)] : p->queue[i];
        batch[count] = w->made[numbers[count]];
        count += 1;
    }
    if (count == 0) {
        return;
    }
    const qll_status status = qll_store_put(w->scene.store, batch, count, QLL_PUT_BESIDE,
                                            w->scene.arena, puts, &w->scene.why);
    if (status != QLL_OK || answer_is_lost) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        if (puts[i].outcome == QLL_PUT_REFUSED) {
            fail(w, "a record of a phone was refused");
        }
        w->acknowledged[numbers[i]] = true;
        know(w, p, puts[i].receipt);
        for (size_t q = 0; q < p->queued; q++) {
            if (p->queue[q] == numbers[i]) {
                memmove(&p->queue[q], &p->queue[q + 1], (p->queued - q - 1) * sizeof p->queue[0]);
                p->queued -= 1;
                break;
            }
        }
    }
}

static size_t pull(world *w, unsigned phone_number, uint64_t chance, bool answer_is_lost)
{
    phone *p = &w->phones[phone_number];
    qll_records page = {0};
    const size_t most = 1 + draw(&chance, 20);
    start_over_if_told(w, phone_number);
    if (qll_store_changes(w->scene.store, p->pulled, most, w->scene.arena, &page, &w->scene.why)
        != QLL_OK) {
        fail(w, "changes could not be read");
        return 0;
    }
    for (size_t i = 0; i < page.count && !answer_is_lost; i++) {
        const unsigned number = number_of(&page.list[i]);
        if (number >= w->count || !qll_text_equal(page.list[i].body, w->made[number].body)) {
            fail(w, "a record came that nobody made");
            return 0;
        }
        if (page.list[i].receipt != p->pulled + 1) {
            fail(w, "a receipt was skipped");
        }
        p->has[number] = true;
        p->pulled = page.list[i].receipt;
    }
    if (!answer_is_lost) {
        know(w, p, p->pulled);
    }
    return page.count;
}

static void open_store(world *w)
{
    if (qll_store_open(w->scene.place, QLL_STORE_MAKE, w->scene.arena, &w->scene.store,
                       &w->scene.why)
        != QLL_OK) {
        fail(w, "the store could not be opened");
    }
}

/* In the middle of a push whose answer never comes. */
static void cut_power(world *w, unsigned phone_number, uint64_t chance)
{
    dropping_disk_fail_after(draw(&chance, 12));
    push(w, phone_number, chance, true, false);
    (void)dropping_disk_crash();
    qll_store_close(w->scene.store);
    w->scene.store = NULL;
    dropping_disk_end();
    dropping_disk_begin(&w->random);
    open_store(w);
    for (unsigned i = 0; i < w->count && w->wrong == NULL; i++) {
        qll_records found = {0};
        if (w->acknowledged[i]
            && (qll_store_get(w->scene.store, w->made[i].id, w->scene.arena, &found, &w->scene.why)
                    != QLL_OK
                || found.count != 1)) {
            fail(w, "what was acknowledged was lost in a power cut");
        }
    }
}

static void back_up(world *w)
{
    char path[200];
    (void)snprintf(path, sizeof path, "%s/backup-%u.db", w->scene.folder, w->backups);
    if (qll_store_backup(w->scene.store, path, w->scene.arena, &w->scene.why) != QLL_OK) {
        fail(w, "a backup could not be made");
    }
    w->backups += 1;
}

/* Any of the backups takes the place of the store; nobody is told. */
static void restore(world *w, uint64_t chance)
{
    char command[600];
    if (w->backups == 0) {
        return;
    }
    qll_store_close(w->scene.store);
    w->scene.store = NULL;
    dropping_disk_end();
    (void)snprintf(command, sizeof command, "rm -f '%s'* && cp '%s/backup-%u.db' '%s'",
                   w->scene.place, w->scene.folder, draw(&chance, w->backups), w->scene.place);
    if (system(command) != 0) {
        fail(w, "a backup could not be put back");
    }
    dropping_disk_begin(&w->random);
    open_store(w);
    /* It is on the phones, if it is gone. */
    memset(w->acknowledged, 0, sizeof w->acknowledged);
    w->restores += 1;
}

static void take_step(world *w, const step *s)
{
    switch (s->kind) {
    case STEP_FACT: make_fact(w, s->phone, s->chance, false); break;
    case STEP_CORRECT: make_fact(w, s->phone, s->chance, true); break;
    case STEP_EDIT: make_version(w, s->phone, s->chance, false); break;
    case STEP_SETTLE: make_version(w, s->phone, s->chance, true); break;
    case STEP_PUSH: push(w, s->phone, s->chance, false, false); break;
    case STEP_PUSH_LOST: push(w, s->phone, s->chance, true, false); break;
    case STEP_PUSH_MIXED: push(w, s->phone, s->chance, false, true); break;
    case STEP_PULL: (void)pull(w, s->phone, s->chance, false); break;
    case STEP_PULL_LOST: (void)pull(w, s->phone, s->chance, true); break;
    case STEP_POWER_CUT: cut_power(w, s->phone, s->chance); break;
    case STEP_BACKUP: back_up(w); break;
    case STEP_RESTORE: restore(w, s->chance); break;
    case STEP_COUNT: break;
    }
}

/* ---- the end: everybody is connected ---- */

static void connect_all(world *w)
{
    for (unsigned p = 0; p < PHONES; p++) {
        start_over_if_told(w, p);
        while (w->phones[p].queued > 0 && w->wrong == NULL) {
            const size_t before = w->phones[p].queued;
            push(w, p, 7, false, false);
            if (w->phones[p].queued == before) {
                fail(w, "a queue does not empty");
            }
        }
    }
    for (unsigned p = 0; p < PHONES && w->wrong == NULL; p++) {
        while (pull(w, p, 19, false) > 0 && w->wrong == NULL) {
        }
    }
}

/* ---- runs ---- */

typedef struct tally {
    unsigned long records, conflicts, restores;
} tally;

/* What went wrong in a run of those steps; NULL. */
static const char *run(const step *steps, size_t count, tally *sum)
{
    static world w;
    memset(&w, 0, sizeof w);
    w.random = qll_random_seeded(count);
    w.scene.arena = qll_arena_open((size_t)1 << 28);
    scene_folder(&w.scene);
    dropping_disk_begin(&w.random);
    open_store(&w);
    for (size_t i = 0; i < count && w.wrong == NULL; i++) {
        take_step(&w, &steps[i]);
    }
    if (w.wrong == NULL) {
        connect_all(&w);
    }
    if (w.wrong == NULL) {
        check_end(&w);
    }
    qll_store_sites rows = {0};
    if (w.wrong == NULL
        && qll_store_conflicts(w.scene.store, w.scene.arena, &rows, &w.scene.why) == QLL_OK) {
        sum->conflicts += rows.count;
    }
    sum->records += w.count;
    sum->restores += w.restores;
    qll_store_close(w.scene.store);
    w.scene.store = NULL;
    dropping_disk_end();
    scene_end(&w.scene);
    return w.wrong;
}

/* Leaves out what the failure does not need. */
static size_t shrink(step *steps, size_t count)
{
    tally ignored = {0};
    for (size_t size = count / 2; size > 0; size /= 2) {
        for (size_t at = 0; at + size <= count;) {
            step kept[STEPS];
            memcpy(kept, steps, count * sizeof *steps);
            memmove(&steps[at], &steps[at + size], (count - at - size) * sizeof *steps);
            if (run(steps, count - size, &ignored) != NULL) {
                count -= size;
            } else {
                memcpy(steps, kept, count * sizeof *steps);
                at += size;
            }
        }
    }
    return count;
}

static unsigned runs = 250 / TEST_ONE_IN;
static unsigned long seed = 1;

TEST(all_end_with_the_same_set)
{
    qll_random random = qll_random_seeded(seed);
    tally sum = {0};
    for (unsigned r = 0; r < runs; r++) {
        step steps[STEPS];
        for (size_t i = 0; i < STEPS; i++) {
            steps[i] =
                (step){(step_kind)(qll_random_unit(&random) * STEP_COUNT),
                       (unsigned)(qll_random_unit(&random) * PHONES), qll_random_bits(&random)};
        }
        const char *wrong = run(steps, STEPS, &sum);
        if (!CHECK(wrong == NULL)) {
            const size_t count = shrink(steps, STEPS);
            printf("    run %u of seed %lu: %s\n", r, seed, run(steps, count, &sum));
            for (size_t i = 0; i < count; i++) {
                printf("    phone %u %s %llu\n", steps[i].phone, step_words[steps[i].kind],
                       (unsigned long long)steps[i].chance);
            }
            return;
        }
    }
    printf("     %u runs, %lu records, %lu sites that end in conflict, %lu backups put back\n",
           runs, sum.records, sum.conflicts, sum.restores);
    /* Runs in which nothing is made and nothing is in conflict would prove nothing. */
    CHECK(sum.records > runs * 10UL && sum.conflicts > runs / 4 && sum.restores > runs);
}

int main(int count, char **arguments)
{
    runs = count > 1 ? (unsigned)strtoul(arguments[1], NULL, 10) : runs;
    seed = count > 2 ? strtoul(arguments[2], NULL, 10) : seed;
    TEST_RUN(all_end_with_the_same_set);
    return TEST_END();
}
