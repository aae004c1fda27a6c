/* One node encodes, the other decodes. Bytes beside each value were packed by another program (Python 3.11, struct and int.to_bytes). */
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "bench_radio.h"
#include "cart_radio.h"
#include "counter_radio.h"
#include "hive_1_radio.h"
#include "jar_shelf_radio.h"
#include "rack_radio.h"
#include "shed_radio.h"
#include "shelf_radio.h"

void radio_select(void) { }
void radio_release(void) { }
uint8_t radio_exchange(uint8_t out) { return out; }
void radio_ce_level(uint8_t high) { (void)high; }
void radio_wait_us(uint16_t us) { (void)us; }

static int faults;
static int checks;
#define EXPECT(condition) do { ++checks; if (!(condition)) { ++faults; printf("line %d: %s\n", __LINE__, #condition); } } while (0)
#define SAME(bytes, ...) do { static const uint8_t wanted[] = { __VA_ARGS__ }; ++checks; \
    if (memcmp(bytes, wanted, sizeof wanted) != 0) { unsigned i; ++faults; printf("line %d:", __LINE__); \
        for (i = 0; i < sizeof wanted; ++i) printf(" %02X", bytes[i]); printf("\n"); } } while (0)

/* Refused, and not a byte written. */
#define REFUSED(call) do { memset(air, 0x77, sizeof air); EXPECT((call) == 0u); EXPECT(air[0] == 0x77 && air[31] == 0x77); } while (0)

static uint8_t air[32];

static void readings(void)
{
    struct hive_1_reading from;
    struct shed_reading to;
    from.weight = -500; from.temperature = -4000; from.battery = 3000u; from.sequence = 255u;
    EXPECT(hive_1_reading_encode(air, &from) == 1u);
    SAME(air, 0x0C, 0xFE, 0xFF, 0xFF, 0x60, 0xF0, 0xB8, 0x0B, 0xFF);
    memset(&to, 0x55, sizeof to);
    EXPECT(shed_reading_decode(&to, air, 8u) == 0u && shed_reading_decode(&to, air, 10u) == 0u && to.sequence == 0x55u);
    EXPECT(shed_reading_decode(&to, air, SHED_READING_LENGTH) == 1u);
    EXPECT(to.weight == -500 && to.temperature == -4000 && to.battery == 3000u && to.sequence == 255u);
    from.weight = 120000; from.temperature = 8500; from.battery = 65535u; from.sequence = 0u;
    EXPECT(hive_1_reading_encode(air, &from) == 1u);
    SAME(air, 0xC0, 0xD4, 0x01, 0x00, 0x34, 0x21, 0xFF, 0xFF, 0x00);
    from.weight = -501; REFUSED(hive_1_reading_encode(air, &from));
    from.weight = 120001; REFUSED(hive_1_reading_encode(air, &from));
    from.weight = 0; from.temperature = 8501; REFUSED(hive_1_reading_encode(air, &from));
    from.temperature = -4001; REFUSED(hive_1_reading_encode(air, &from));
    EXPECT(HIVE_1_READING_TEMPERATURE_TIMES == 1 && HIVE_1_READING_TEMPERATURE_OVER == 100);
}

static void orders(void)
{
    struct shed_order from;
    struct hive_1_order to;
    from.interval = 600u; from.flags.tare = 0u; from.flags.sleep = 1u; from.sequence = 7u;
    EXPECT(shed_order_encode(air, &from) == 1u);
    SAME(air, 0x58, 0x02, 0x02, 0x07);
    air[2] = 0xFDu; /* bits that no name takes are ignored */
    EXPECT(hive_1_order_decode(&to, air, 4u) == 1u && to.interval == 600u && to.flags.tare == 1u && to.flags.sleep == 0u && to.sequence == 7u);
    from.flags.sleep = 2u; REFUSED(shed_order_encode(air, &from));
}

/* Both byte orders run through the same lines. */
#define BOTH(order, INTEGERS, LOW, HIGH, MIXED, WIDE, FLAGS, PADDED) \
static void all_kinds##order(void) \
{ \
    { struct bench_integers##order from; struct rack_integers##order to; \
      from.a = -2; from.b = 200u; from.c = -300; from.d = 0x1234u; from.e = -70000; from.f = 0x89ABCDEFuL; from.g = -5000000000LL; from.h = 0xF123456789ABCDEFuLL; \
      EXPECT(bench_integers##order##_encode(air, &from) == 1u); SAME(air, INTEGERS); \
      EXPECT(rack_integers##order##_decode(&to, air, 30u) == 1u); \
      EXPECT(to.a == from.a && to.b == from.b && to.c == from.c && to.d == from.d && to.e == from.e && to.f == from.f && to.g == from.g && to.h == from.h); } \
    { struct bench_limits##order from; struct rack_limits##order to; \
      from.a = -100; from.b = 0u; from.c = -32767 - 1; from.d = 10u; from.e = -2147483647; from.f = 70000u; from.g = -900000000000000000LL; from.h = 1u; \
      EXPECT(bench_limits##order##_encode(air, &from) == 1u); SAME(air, LOW); \
      EXPECT(rack_limits##order##_decode(&to, air, 30u) == 1u && to.c == from.c && to.g == from.g); \
      from.a = -101; REFUSED(bench_limits##order##_encode(air, &from)); from.a = -100; \
      from.d = 9u; REFUSED(bench_limits##order##_encode(air, &from)); from.d = 10u; \
      from.e = -2147483647 - 1; REFUSED(bench_limits##order##_encode(air, &from)); from.e = 0; \
      from.f = 69999u; REFUSED(bench_limits##order##_encode(air, &from)); from.f = 70000u; \
      from.g = -900000000000000001LL; REFUSED(bench_limits##order##_encode(air, &from)); from.g = 0; \
      from.h = 0u; REFUSED(bench_limits##order##_encode(air, &from)); \
      from.a = 127; from.b = 200u; from.c = 32000; from.d = 65535u; from.e = 70000; from.f = 4000000000u; from.g = 5000000000LL; from.h = 9000000000000000000uLL; \
      EXPECT(bench_limits##order##_encode(air, &from) == 1u); SAME(air, HIGH); \
      EXPECT(rack_limits##order##_decode(&to, air, 30u) == 1u && to.f == from.f && to.h == from.h); \
      from.b = 201u; REFUSED(bench_limits##order##_encode(air, &from)); from.b = 0u; \
      from.c = 32001; REFUSED(bench_limits##order##_encode(air, &from)); from.c = 0; \
      from.h = 9000000000000000001uLL; REFUSED(bench_limits##order##_encode(air, &from)); } \
    { struct bench_mixed##order from; struct rack_mixed##order to; float not_a_number = 0.0f; \
      static const uint8_t serial[5] = { 1, 2, 3, 4, 255 }; \
      from.ratio = -40.5f; memset(from.label, 0, sizeof from.label); strcpy(from.label, "hive"); memcpy(from.serial, serial, 5); \
      from.samples[0] = 0u; from.samples[1] = 1000u; from.samples[2] = 517u; from.tiny[0] = -127 - 1; from.tiny[1] = 127; from.tiny[2] = -1; from.from[0] = 9u; from.from[1] = 250u; \
      EXPECT(bench_mixed##order##_encode(air, &from) == 1u); SAME(air, MIXED); \
      memset(&to, 0x55, sizeof to); \
      EXPECT(rack_mixed##order##_decode(&to, air, 31u) == 1u && to.ratio == -40.5f && strcmp(to.label, "hive") == 0 && memcmp(to.serial, serial, 5) == 0); \
      EXPECT(memcmp(to.samples, from.samples, sizeof to.samples) == 0 && memcmp(to.tiny, from.tiny, 3) == 0 && memcmp(to.from, from.from, 2) == 0); \
      EXPECT(to.label[4] == 0 && to.label[5] == 0 && to.label[6] == 0 && to.label[7] == 0); \
      air[0] = 4u; EXPECT(rack_mixed##order##_decode(&to, air, 31u) == 0u); air[0] = 3u; \
      air[28] ^= 1u; EXPECT(rack_mixed##order##_decode(&to, air, 31u) == 0u); air[28] ^= 1u; \
      air[30] = 1u; EXPECT(rack_mixed##order##_decode(&to, air, 31u) == 0u); \
      from.samples[2] = 1001u; REFUSED(bench_mixed##order##_encode(air, &from)); from.samples[2] = 0u; \
      from.ratio = 85.2f; REFUSED(bench_mixed##order##_encode(air, &from)); \
      from.ratio = not_a_number / not_a_number; REFUSED(bench_mixed##order##_encode(air, &from)); \
      from.ratio = 85.1f; memcpy(from.label, "1234567", 8); EXPECT(bench_mixed##order##_encode(air, &from) == 1u); \
      EXPECT(rack_mixed##order##_decode(&to, air, 31u) == 1u && strcmp(to.label, "1234567") == 0); \
      memcpy(from.label, "12345678", 8); REFUSED(bench_mixed##order##_encode(air, &from)); } \
    { struct bench_wide##order from; struct rack_wide##order to; \
      from.slopes[0] = 0.25f; from.slopes[1] = 1.5e10f; from.totals = 0x8000000000000005uLL; from.level = -8; from.rough = -3; \
      EXPECT(bench_wide##order##_encode(air, &from) == 1u); SAME(air, WIDE); \
      EXPECT(rack_wide##order##_decode(&to, air, 26u) == 1u && to.slopes[1] == 1.5e10f && to.totals == from.totals && to.level == -8 && to.rough == -3); \
      from.rough = 4; REFUSED(bench_wide##order##_encode(air, &from)); from.rough = -4; REFUSED(bench_wide##order##_encode(air, &from)); from.rough = 3; \
      from.slopes[1] = -0.1f; REFUSED(bench_wide##order##_encode(air, &from)); \
      from.slopes[1] = 0.0f; EXPECT(bench_wide##order##_encode(air, &from) == 1u); air[25] ^= 0x40u; EXPECT(rack_wide##order##_decode(&to, air, 26u) == 0u); } \
    { struct bench_flags##order from; struct rack_flags##order to; \
      from.one.a = 5u; from.one.b = 1u; from.one.c = 9u; from.two.a = 1u; from.two.b = 0xABCu; from.two.c = 2u; from.three.a = 0x15555u; from.three.b = 0x2Au; \
      from.four.a = 0x80u; from.four.b = 0x2AAAAAu; from.four.c = 1u; from.whole.a = 0xDEADBEEFu; from.halves.a = 0x1234u; from.halves.b = 0x5678u; from.door = 2u; from.mode = 1u; from.solo = 0u; \
      EXPECT(bench_flags##order##_encode(air, &from) == 1u); SAME(air, FLAGS); \
      EXPECT(rack_flags##order##_decode(&to, air, 25u) == 1u); \
      EXPECT(to.one.a == 5u && to.one.b == 1u && to.one.c == 9u && to.two.a == 1u && to.two.b == 0xABCu && to.two.c == 2u && to.three.a == 0x15555u && to.three.b == 0x2Au); \
      EXPECT(to.four.a == 0x80u && to.four.b == 0x2AAAAAu && to.four.c == 1u && to.whole.a == 0xDEADBEEFu && to.halves.a == 0x1234u && to.halves.b == 0x5678u); \
      EXPECT(to.door == 2u && to.mode == 1u && to.solo == 0u); \
      from.one.a = 8u; REFUSED(bench_flags##order##_encode(air, &from)); from.one.a = 7u; \
      from.three.a = 0x20000u; REFUSED(bench_flags##order##_encode(air, &from)); from.three.a = 0u; \
      from.four.b = 0x800000u; REFUSED(bench_flags##order##_encode(air, &from)); from.four.b = 0u; \
      from.door = 3u; REFUSED(bench_flags##order##_encode(air, &from)); from.door = 0u; \
      from.mode = 2u; REFUSED(bench_flags##order##_encode(air, &from)); from.mode = 0u; \
      from.solo = 1u; REFUSED(bench_flags##order##_encode(air, &from)); } \
    { struct bench_padded##order from; struct rack_padded##order to; \
      from.a = 0x11u; from.b = 0x12345678u; from.c = -2; from.d.x = 0x155u; from.e = 0x0102030405060708uLL; \
      memset(air, 0x77, sizeof air); EXPECT(bench_padded##order##_encode(air, &from) == 1u); SAME(air, PADDED); \
      air[1] = 0xFFu; air[15] = 0xFFu; /* padding is ignored */ \
      EXPECT(rack_padded##order##_decode(&to, air, 24u) == 1u && to.a == 0x11u && to.b == 0x12345678u && to.c == -2 && to.d.x == 0x155u && to.e == from.e); } \
}

#define LIST(...) __VA_ARGS__
BOTH(, LIST(0xFE, 0xC8, 0xD4, 0xFE, 0x34, 0x12, 0x90, 0xEE, 0xFE, 0xFF, 0xEF, 0xCD, 0xAB, 0x89, 0x00, 0x0E, 0xFA, 0xD5, 0xFE, 0xFF, 0xFF, 0xFF, 0xEF, 0xCD, 0xAB, 0x89, 0x67, 0x45, 0x23, 0xF1),
    LIST(0x9C, 0x00, 0x00, 0x80, 0x0A, 0x00, 0x01, 0x00, 0x00, 0x80, 0x70, 0x11, 0x01, 0x00, 0x00, 0x00, 0x26, 0xB6, 0xC4, 0x8E, 0x82, 0xF3, 0x01, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00),
    LIST(0x7F, 0xC8, 0x00, 0x7D, 0xFF, 0xFF, 0x70, 0x11, 0x01, 0x00, 0x00, 0x28, 0x6B, 0xEE, 0x00, 0xF2, 0x05, 0x2A, 0x01, 0x00, 0x00, 0x00, 0x00, 0x00, 0x84, 0xE2, 0x50, 0x6C, 0xE6, 0x7C),
    LIST(0x03, 0x00, 0x00, 0x22, 0xC2, 0x68, 0x69, 0x76, 0x65, 0x00, 0x00, 0x00, 0x01, 0x02, 0x03, 0x04, 0xFF, 0x00, 0x00, 0xE8, 0x03, 0x05, 0x02, 0x80, 0x7F, 0xFF, 0x09, 0xFA, 0xD4, 0xFE, 0x00),
    LIST(0x00, 0x00, 0x80, 0x3E, 0x76, 0x84, 0x5F, 0x50, 0x05, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x80, 0xF8, 0xFF, 0xFF, 0xFF, 0xFD, 0xFF, 0x00, 0x00, 0x00, 0x3F),
    LIST(0x9D, 0x79, 0x55, 0x55, 0x55, 0x55, 0x80, 0xAA, 0xAA, 0xAA, 0xEF, 0xBE, 0xAD, 0xDE, 0x34, 0x12, 0x78, 0x56, 0x02, 0x01, 0x00, 0x00, 0x00, 0x00, 0x00),
    LIST(0x11, 0x00, 0x00, 0x00, 0x78, 0x56, 0x34, 0x12, 0xFE, 0xFF, 0x55, 0x01, 0x00, 0x00, 0x00, 0x00, 0x08, 0x07, 0x06, 0x05, 0x04, 0x03, 0x02, 0x01))
BOTH(_big, LIST(0xFE, 0xC8, 0xFE, 0xD4, 0x12, 0x34, 0xFF, 0xFE, 0xEE, 0x90, 0x89, 0xAB, 0xCD, 0xEF, 0xFF, 0xFF, 0xFF, 0xFE, 0xD5, 0xFA, 0x0E, 0x00, 0xF1, 0x23, 0x45, 0x67, 0x89, 0xAB, 0xCD, 0xEF),
    LIST(0x9C, 0x00, 0x80, 0x00, 0x00, 0x0A, 0x80, 0x00, 0x00, 0x01, 0x00, 0x01, 0x11, 0x70, 0xF3, 0x82, 0x8E, 0xC4, 0xB6, 0x26, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x01),
    LIST(0x7F, 0xC8, 0x7D, 0x00, 0xFF, 0xFF, 0x00, 0x01, 0x11, 0x70, 0xEE, 0x6B, 0x28, 0x00, 0x00, 0x00, 0x00, 0x01, 0x2A, 0x05, 0xF2, 0x00, 0x7C, 0xE6, 0x6C, 0x50, 0xE2, 0x84, 0x00, 0x00),
    LIST(0x03, 0xC2, 0x22, 0x00, 0x00, 0x68, 0x69, 0x76, 0x65, 0x00, 0x00, 0x00, 0x01, 0x02, 0x03, 0x04, 0xFF, 0x00, 0x00, 0x03, 0xE8, 0x02, 0x05, 0x80, 0x7F, 0xFF, 0x09, 0xFA, 0xFE, 0xD4, 0x00),
    LIST(0x3E, 0x80, 0x00, 0x00, 0x50, 0x5F, 0x84, 0x76, 0x80, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x05, 0xFF, 0xFF, 0xFF, 0xF8, 0xFF, 0xFD, 0x3F, 0x00, 0x00, 0x00),
    LIST(0x9D, 0x55, 0x79, 0x55, 0x55, 0x55, 0xAA, 0xAA, 0xAA, 0x80, 0xDE, 0xAD, 0xBE, 0xEF, 0x56, 0x78, 0x12, 0x34, 0x02, 0x00, 0x01, 0x00, 0x00, 0x00, 0x00),
    LIST(0x11, 0x00, 0x00, 0x00, 0x12, 0x34, 0x56, 0x78, 0xFF, 0xFE, 0x01, 0x55, 0x00, 0x00, 0x00, 0x00, 0x01, 0x02, 0x03, 0x04, 0x05, 0x06, 0x07, 0x08))

/* The natural layout is the one that this compiler gives the same members. */
struct padded_by_the_compiler { uint8_t a; uint32_t b; int16_t c; uint16_t d; uint64_t e; };
RADIO_CHECK(sizeof(struct padded_by_the_compiler) == BENCH_PADDED_LENGTH, same_size);
RADIO_CHECK(offsetof(struct padded_by_the_compiler, b) == 4u && offsetof(struct padded_by_the_compiler, c) == 8u, same_place);
RADIO_CHECK(offsetof(struct padded_by_the_compiler, d) == 10u && offsetof(struct padded_by_the_compiler, e) == 16u, same_place_too);

static void constants_and_names(void)
{
    struct shelf_named from;
    struct bench_named to;
    EXPECT(bench_marker_encode(air) == 1u);
    SAME(air, 0x07, 0x70, 0x11, 0x01, 0x00);
    EXPECT(shelf_marker_decode(air, 5u) == 1u && rack_marker_decode(air, 5u) == 1u && shelf_marker_decode(air, 4u) == 0u);
    air[3] = 2u; EXPECT(shelf_marker_decode(air, 5u) == 0u);
    memset(&from, 0, sizeof from);
    from.sender = 42u; strcpy(from.names[0], "a"); strcpy(from.names[1], "abcd");
    from.keys[0][0] = 1u; from.keys[0][1] = 2u; from.keys[0][2] = 3u; from.keys[1][1] = 255u; from.keys[1][2] = 127u;
    EXPECT(shelf_named_encode(air, &from) == 1u);
    SAME(air, 0x2A, 0x61, 0x00, 0x00, 0x00, 0x61, 0x62, 0x63, 0x64, 0x01, 0x02, 0x03, 0x00, 0xFF, 0x7F, 0x90, 0xEE, 0xFE, 0xFF, 0x90, 0xEE, 0xFE, 0xFF);
    EXPECT(bench_named_decode(&to, air, 23u) == 1u && to.sender == 42u && strcmp(to.names[1], "abcd") == 0 && to.names[1][4] == 0 && to.keys[1][1] == 255u);
    air[19] ^= 1u; EXPECT(bench_named_decode(&to, air, 23u) == 0u);
    memcpy(from.names[1], "abcde", 5); REFUSED(shelf_named_encode(air, &from));
}

/* A shorter payload on a pipe of fixed length is filled with zeros; the receiver of two lengths has the payload twice. */
static void fixed_length(void)
{
    struct jar_shelf_tally from;
    struct cart_tally from_cart;
    struct counter_tally to;
    struct counter_tally_in_16 to_in_16;
    from.jars = 300u; from.lids = 2u; from.sequence = 9u;
    memset(air, 0x77, sizeof air);
    EXPECT(JAR_SHELF_TALLY_LENGTH == 12u && COUNTER_TALLY_LENGTH == 12u && jar_shelf_tally_encode(air, &from) == 1u);
    SAME(air, 0x2C, 0x01, 0x02, 0x00, 0x09, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x77);
    air[8] = 1u;
    EXPECT(counter_tally_decode(&to, air, 12u) == 1u && to.jars == 300u && to.lids == 2u && to.sequence == 9u);
    EXPECT(counter_tally_decode(&to, air, 5u) == 0u);
    from_cart.jars = 1u; from_cart.lids = 0xFFFFu; from_cart.sequence = 255u;
    EXPECT(CART_TALLY_LENGTH == 16u && cart_tally_encode(air, &from_cart) == 1u);
    SAME(air, 0x01, 0x00, 0xFF, 0xFF, 0xFF, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x77);
    EXPECT(counter_tally_decode(&to, air, 16u) == 0u);
    EXPECT(counter_tally_in_16_decode(&to_in_16, air, 16u) == 1u && to_in_16.jars == 1u && to_in_16.lids == 0xFFFFu && to_in_16.sequence == 255u);
}

int main(void)
{
    readings();
    orders();
    all_kinds();
    all_kinds_big();
    constants_and_names();
    fixed_length();
    printf("%d checks, %d faults\n", checks, faults);
    return faults != 0;
}
