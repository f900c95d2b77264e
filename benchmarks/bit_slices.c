/* All pairs of 16-bit operands through all 32 edges of the serial adder, written by hand.
 *
 * One bit of many operand pairs is one vector of the machine's widest integers (GCC's vector
 * extension). The shift registers need no code: a word shifted through arrives unchanged.
 * What is left is, for each of the sixteen edges that add, one full adder as its five gates
 * have it, and the comparison with a sum made by other means (carry as majority).
 *
 * flat:   one loop over all blocks of pairs, every bit computed in it.
 * nested: one loop for each place, LSB outermost, so that a place is computed only when its
 *         operand bits or its carry change. It is the limit: the same number of pairs is
 *         gone through with the least work that we know of.
 */
#include <pthread.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#ifdef __AVX512F__
#define LANE_BITS 9
#elif defined(__AVX2__)
#define LANE_BITS 8
#else
#define LANE_BITS 7
#endif
#define WORDS (1 << (LANE_BITS - 6))
#define WIDTH 16

typedef uint64_t vector __attribute__((vector_size(8 * WORDS)));

static const uint64_t SIX[6] = {0xAAAAAAAAAAAAAAAA, 0xCCCCCCCCCCCCCCCC, 0xF0F0F0F0F0F0F0F0,
                                0xFF00FF00FF00FF00, 0xFFFF0000FFFF0000, 0xFFFFFFFF00000000};

static vector pattern(int bit) {
    vector v;
    for (int i = 0; i < WORDS; i++) v[i] = bit < 6 ? SIX[bit] : -(uint64_t)(i >> (bit - 6) & 1);
    return v;
}

static inline vector spread(uint64_t bit) { return (vector){0} - (bit & 1); }

/* The same for nested loops. Their bits are constants, from which the compiler would find by
 * symbols that both carries are always equal, and nothing would be gone through at all; so
 * it is not shown what stands here. */
vector all_lanes[2];

/* One edge: the design's full adder beside the purpose's; `wrong` gathers differences. */
#define PLACE(x, y, c, d, wrong)                                   \
    do {                                                           \
        vector half = (x) ^ (y);                                   \
        (wrong) |= (half ^ (c)) ^ ((x) ^ (y) ^ (d));               \
        (c) = ((x) & (y)) | (half & (c));                          \
        (d) = (((x) | (y)) & (d)) | ((x) & (y));                   \
    } while (0)

static int any(vector v) {
    uint64_t all = 0;
    for (int i = 0; i < WORDS; i++) all |= v[i];
    return all != 0;
}

static uint64_t ones(vector v) {
    uint64_t n = 0;
    for (int i = 0; i < WORDS; i++) n += __builtin_popcountll(v[i]);
    return n;
}

/* Numbers of pairs are the bits of a above the bits of b. */
static uint64_t flat(uint64_t start, uint64_t stop) {
    vector lanes[LANE_BITS];
    uint64_t failures = 0;
    for (int i = 0; i < LANE_BITS; i++) lanes[i] = pattern(i);
    for (uint64_t block = start; block < stop; block++) {
        uint64_t number = block << LANE_BITS;
        vector c = {0}, d = {0}, wrong = {0};
#pragma GCC unroll 16
        for (int i = 0; i < WIDTH; i++) {
            vector y = i < LANE_BITS ? lanes[i] : spread(number >> i);
            vector x = spread(number >> (WIDTH + i));
            PLACE(x, y, c, d, wrong);
        }
        wrong |= c ^ d;
        if (__builtin_expect(any(wrong), 0)) failures += ones(wrong);
    }
    return failures;
}

/* Bits of a and b at one place, all four pairs, and then all places above it. */
#define EACH(i, below, inside)                                     \
    for (int pair##i = 0; pair##i < 4; pair##i++) {                \
        vector c##i = c##below, d##i = d##below, w##i = w##below;  \
        vector x = all_lanes[pair##i & 1];                         \
        vector y = all_lanes[pair##i >> 1];                        \
        PLACE(x, y, c##i, d##i, w##i);                             \
        inside                                                     \
    }

/* The lowest places are lanes: four of a and four of b with 8, a fifth of a with 9. */
static uint64_t nested(uint64_t start, uint64_t stop) {
    vector lanes[LANE_BITS];
    uint64_t failures = 0;
    const int low = LANE_BITS / 2, outer = 8;
    for (int i = 0; i < LANE_BITS; i++) lanes[i] = pattern(i);
    for (uint64_t block = start; block < stop; block++) {
        vector c7 = {0}, d7 = {0}, w7 = {0};
        int next = 0;
        for (int i = 0; i < outer; i++) {
            vector x, y;
            x = i < low + LANE_BITS % 2 ? lanes[i] : spread(block >> next++);
            y = i < low ? lanes[low + LANE_BITS % 2 + i] : spread(block >> next++);
            PLACE(x, y, c7, d7, w7);
        }
        EACH(8, 7, EACH(9, 8, EACH(10, 9, EACH(11, 10, EACH(12, 11, EACH(13, 12, EACH(14, 13,
        _Pragma("GCC unroll 4") EACH(15, 14, {
            w15 |= c15 ^ d15;
            if (__builtin_expect(any(w15), 0)) failures += ones(w15);
        }))))))))
    }
    return failures;
}

struct part {
    int nested;
    uint64_t start, stop, failures;
};

static void *work(void *given) {
    struct part *part = given;
    part->failures = (part->nested ? nested : flat)(part->start, part->stop);
    return NULL;
}

static double now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec + 1e-9 * t.tv_nsec;
}

/* usage: flat|nested THREADS; prints failures and seconds */
int main(int count, char **given) {
    if (count != 3) return 2;
    struct part parts[256];
    pthread_t threads[256];
    int is_nested = !strcmp(given[1], "nested"), n = atoi(given[2]);
    uint64_t blocks = is_nested ? 1ull << (16 - LANE_BITS) : 1ull << (2 * WIDTH - LANE_BITS);
    all_lanes[1] = ~all_lanes[0];
    double began = now();
    for (int i = 0; i < n; i++) {
        parts[i] = (struct part){is_nested, blocks * i / n, blocks * (i + 1) / n, 0};
        pthread_create(&threads[i], NULL, work, &parts[i]);
    }
    uint64_t failures = 0;
    for (int i = 0; i < n; i++) {
        pthread_join(threads[i], NULL);
        failures += parts[i].failures;
    }
    printf("%llu %.6f\n", (unsigned long long)failures, now() - began);
    return 0;
}
