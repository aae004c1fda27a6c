/* The board of the tests: every hook leads to whoever loaded this, and a byte of one table may be another than compiled. */
#include <setjmp.h>
#include <stddef.h>
#include <stdint.h>

struct table {
    const uint8_t *bytes;
    unsigned size;
};

static void (*on_select)(void), (*on_release)(void), (*on_ce)(uint8_t), (*on_wait)(uint16_t);
static uint8_t (*on_exchange)(uint8_t);
static jmp_buf end;
static int most, left;
static const struct table *changed;
static int changed_at;
static uint8_t changed_to;

/* Nothing lies behind a changed table: what else a reader would find there differs from build to build. */
static uint8_t read_table(const uint8_t *place)
{
    uint8_t value = 0u;
    if (changed == NULL)
        value = *place;
    else if (place >= changed->bytes && place < changed->bytes + changed->size)
        value = (place == changed->bytes + changed_at) ? changed_to : *place;
    return value;
}

#define RADIO_TABLE
#define RADIO_READ(place) read_table(place)
#define RADIO_OWN_HOOKS

static void radio_select(void) { on_select(); }
static void radio_release(void) { on_release(); }
static void radio_ce_level(uint8_t high) { on_ce(high); }
static void radio_wait_us(uint16_t us) { on_wait(us); }

static uint8_t radio_exchange(uint8_t out)
{
    if (--left < 0)
        longjmp(end, 1);
    return on_exchange(out);
}

