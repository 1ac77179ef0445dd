/* What one thread of this processor can do at most: prints `name value` lines, rates per second of CPU time.
 *
 * Each loop is a block of independent instructions that no compiler may change, run for some hundredths of a second;
 * the best of several runs counts, since other programs only ever slow it down. */

#define _GNU_SOURCE
#include <stdint.h>
#include <stdio.h>
#include <time.h>

enum { RUNS = 15 };
static const double LONG_ENOUGH_S = 0.02;
enum { NEAR = 16 * 1024, ROOM = 256 * 1024 };
static uint8_t room[ROOM] __attribute__((aligned(64)));

static double now_s(void) {
    struct timespec t;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* The most blocks a second of a function that runs as many blocks as it is given. */
static double blocks_per_s(void (*blocks)(uint64_t)) {
    uint64_t count = 1000;
    double best = 0.0;
    for (int run = 0; run < RUNS;) {
        double begun = now_s();
        blocks(count);
        double took = now_s() - begun;
        if (took < LONG_ENOUGH_S) {
            count *= 2;
            continue;
        }
        double rate = (double)count / took;
        best = rate > best ? rate : best;
        run++;
    }
    return best;
}

#define REGISTERS "xmm0", "xmm1", "xmm2", "xmm3", "xmm4", "xmm5", "xmm6", "xmm7", "xmm8", "xmm9", "xmm10", "xmm11", \
                  "xmm12", "xmm13", "xmm14", "xmm15"

/* A loop of `count` blocks; `BLOCK` may use all vector registers, rax, rcx, rdx and the room at %1. Before it all lanes of
 * all vector registers are one, so that nothing runs into denormal or infinite numbers. */
#define LOOP(name, BLOCK) \
    static void name(uint64_t count) { \
        static const double one[4] = {1.0, 1.0, 1.0, 1.0}; \
        __asm__ volatile( \
            ".irp r,0,1,2,3,4,5,6,7,8,9,10,11,12,13,14,15\n\t vmovupd (%2), %%ymm\\r\n\t .endr\n\t" \
            "xor %%eax, %%eax\n\t xor %%ecx, %%ecx\n\t xor %%edx, %%edx\n\t xor %%r8d, %%r8d\n\t xor %%r9d, %%r9d\n\t" \
            "xor %%r10d, %%r10d\n\t xor %%r11d, %%r11d\n\t" \
            ".p2align 6\n\t 1:\n\t" BLOCK "dec %0\n\t jnz 1b\n\t vzeroupper" \
            : "+r"(count) \
            : "r"(room), "r"(one) \
            : "rax", "rcx", "rdx", "r8", "r9", "r10", "r11", "memory", "cc", REGISTERS); \
    }

#define EIGHT(text) ".irp r,0,1,2,3,4,5,6,7\n\t" text "\n\t .endr\n\t"
/* 64 additions, each of which waits for the one before: a cycle each. */
LOOP(chain, ".rept 64\n\t add %%rcx, %%rax\n\t .endr\n\t")
/* Ten rounds of seven sums and seven products, in lanes of four; 14 and 15 are one and stay so. */
LOOP(sums_and_products,
     ".rept 10\n\t .irp r,0,1,2,3,4,5,6\n\t vaddpd %%ymm14, %%ymm\\r, %%ymm\\r\n\t .endr\n\t"
     ".irp r,7,8,9,10,11,12,13\n\t vmulpd %%ymm15, %%ymm\\r, %%ymm\\r\n\t .endr\n\t .endr\n\t")
LOOP(wide_quotients, EIGHT("vdivpd %%ymm15, %%ymm14, %%ymm\\r"))
LOOP(quotients, EIGHT("vdivsd %%xmm15, %%xmm14, %%xmm\\r"))
LOOP(wide_roots, EIGHT("vsqrtpd %%ymm15, %%ymm\\r"))
LOOP(roots, EIGHT("vsqrtsd %%xmm15, %%xmm14, %%xmm\\r"))
/* All of the nearest 16 KiB once. */
LOOP(wide_loads, ".set at,0\n\t .rept 512\n\t vmovapd at(%1), %%ymm0\n\t .set at,at+32\n\t .endr\n\t")
LOOP(loads, ".set at,0\n\t .rept 2048\n\t vmovsd at(%1), %%xmm0\n\t .set at,at+8\n\t .endr\n\t")
LOOP(whole_loads, ".set at,0\n\t .rept 2048\n\t mov at(%1), %%rax\n\t .set at,at+8\n\t .endr\n\t")
LOOP(wide_stores, ".set at,0\n\t .rept 512\n\t vmovapd %%ymm0, at(%1)\n\t .set at,at+32\n\t .endr\n\t")
LOOP(stores, ".set at,0\n\t .rept 2048\n\t mov %%rax, at(%1)\n\t .set at,at+8\n\t .endr\n\t")
/* All of the 256 KiB, 16 by 16: too much for the nearest cache. */
LOOP(far_loads, ".set at,0\n\t .rept 512\n\t vmovapd at(%1,%%rcx), %%ymm0\n\t .set at,at+32\n\t .endr\n\t"
                "add $16384, %%ecx\n\t and $262143, %%ecx\n\t")
/* Nine instructions of every kind, that do not wait for each other. */
LOOP(mixture, "add %%r8, %%rax\n\t add %%r8, %%rcx\n\t add %%r8, %%rdx\n\t add %%r8, %%r9\n\t"
              "mov (%1), %%r10\n\t mov 8(%1), %%r11\n\t vaddpd %%ymm15, %%ymm14, %%ymm0\n\t")

int main(void) {
    printf("cycles %.6g\n", 64.0 * blocks_per_s(chain));
    printf("flops %.6g\n", 4.0 * 140.0 * blocks_per_s(sums_and_products));
    printf("wide_quotients %.6g\n", 8.0 * blocks_per_s(wide_quotients));
    printf("quotients %.6g\n", 8.0 * blocks_per_s(quotients));
    printf("wide_roots %.6g\n", 8.0 * blocks_per_s(wide_roots));
    printf("roots %.6g\n", 8.0 * blocks_per_s(roots));
    printf("bytes_read %.6g\n", (double)NEAR * blocks_per_s(wide_loads));
    printf("loads %.6g\n", 2048.0 * blocks_per_s(loads));
    printf("whole_loads %.6g\n", 2048.0 * blocks_per_s(whole_loads));
    printf("bytes_written %.6g\n", (double)NEAR * blocks_per_s(wide_stores));
    printf("stores %.6g\n", 2048.0 * blocks_per_s(stores));
    printf("bytes_from_farther %.6g\n", (double)NEAR * blocks_per_s(far_loads));
    printf("instructions %.6g\n", 9.0 * blocks_per_s(mixture));
    return 0;
}
