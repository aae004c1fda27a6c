/* Configures a small model of the chip from every dirty state, reads it back, changes roles. The model is ours: it says nothing about a real part. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_radio.h"
#include "hive_1_radio.h"
#include "shed_radio.h"
#include "shelf_radio.h"

static int faults;
#define EXPECT(condition) do { if (!(condition)) { if (++faults < 20) printf("line %d: %s\n", __LINE__, #condition); } } while (0)

static uint8_t registers[32][5], frame[40];
static int length, selected, ce, tied, is_earlier, is_open, activations, violations, flush_tx, flush_rx, floating, spi_bytes;
static long waited;

static int is_wide(int address) { return address == 0x0A || address == 0x0B || address == 0x10; }
static int is_hidden(int address) { return is_earlier && !is_open && (address == 0x1C || address == 0x1D); }

void radio_select(void)
{
    violations += selected;
    selected = 1;
    length = 0;
}

uint8_t radio_exchange(uint8_t out)
{
    uint8_t in = 0u;
    violations += !selected;
    ++spi_bytes;
    if (length < 40)
        frame[length] = out;
    if (floating)
        in = 0xFFu;
    else if (length == 0)
        in = registers[7][0];
    else if (frame[0] < 0x20u)
        in = is_hidden(frame[0]) ? 0u : registers[frame[0]][length < 6 ? length - 1 : 4];
    ++length;
    return in;
}

void radio_release(void)
{
    violations += !selected;
    selected = 0;
    if (frame[0] >= 0x20u && frame[0] < 0x40u) {
        const int address = frame[0] & 0x1F, bytes = length - 1;
        /* Registers only in power down or standby; with CE tied high nothing but the power down can come first. */
        if ((registers[0][0] & 2u) && ce && address != 7 && !(tied && address == 0))
            ++violations;
        if (bytes < 1 || bytes > (is_wide(address) ? 5 : 1) || address == 8 || address == 9 || address > 0x1D || (address > 0x16 && address < 0x1C))
            ++violations;
        if (address == 7)
            registers[7][0] &= (uint8_t)~(frame[1] & 0x70u);
        else if (!is_hidden(address))
            memcpy(registers[address], frame + 1, (size_t)bytes);
    } else if (frame[0] == 0x50u && length == 2 && frame[1] == 0x73u) {
        ++activations;
        is_open = !is_open;
        violations += !is_earlier || (registers[0][0] & 2u);
    } else if (frame[0] == 0xE1u)
        ++flush_tx;
    else if (frame[0] == 0xE2u)
        ++flush_rx;
    else if (frame[0] >= 0x20u && frame[0] != 0xFFu)
        ++violations;
}

void radio_ce_level(uint8_t high) { ce = tied || high; }

void radio_wait_us(uint16_t us) { waited += us; }

static void dirty(int earlier, int opened, int ce_is_tied)
{
    int i, j;
    for (i = 0; i < 32; ++i)
        for (j = 0; j < 5; ++j)
            registers[i][j] = (uint8_t)(rand() & 0x3F);
    registers[0][0] = 0x7Fu;
    registers[7][0] = 0x70u;
    ce = 1;
    tied = ce_is_tied;
    is_earlier = earlier;
    is_open = opened;
    activations = violations = flush_tx = flush_rx = spi_bytes = floating = 0;
    waited = 0;
}

static int holds(int address, const uint8_t *bytes) { return memcmp(registers[address], bytes, 5) == 0; }

int main(void)
{
    static const uint8_t to_shed[] = HIVE_1_TO_SHED_READING_ADDRESS;
    static const uint8_t to_rack[] = BENCH_TO_RACK_FLAGS_ADDRESS;
    static const uint8_t to_shelf[] = BENCH_TO_SHELF_MARKER_ADDRESS;
    static const uint8_t from_rack[] = BENCH_FROM_RACK_MARKER_ADDRESS;
    int round;
    srand(1);
    for (round = 0; round < 2000; ++round) {
        dirty(0, 0, 0);
        hive_1_configure();
        EXPECT(violations == 0 && spi_bytes == 36 && ce == 0 && waited == RADIO_START_UP_US && flush_tx == 1 && flush_rx == 1);
        EXPECT(registers[0][0] == HIVE_1_CONFIG_SEND && registers[5][0] == HIVE_1_CHANNEL && registers[6][0] == 0x26 && registers[7][0] == 0);
        EXPECT(holds(0x10, to_shed) && holds(0x0A, to_shed) && registers[1][0] == 1 && registers[2][0] == 1 && registers[0x1C][0] == 1);
        EXPECT(hive_1_verify() == 0u);
        registers[6][0] ^= 1u;
        EXPECT(hive_1_verify() == 0u);
        registers[6][0] ^= 2u;
        EXPECT(hive_1_verify() == 1u);
        registers[0x10][4] ^= 0x80u;
        registers[0x0A][3] ^= 1u;
        EXPECT(hive_1_verify() == 3u);
        registers[0][0] = HIVE_1_CONFIG_DOWN;
        EXPECT(hive_1_verify() == 4u);
        floating = 1;
        EXPECT(hive_1_verify() == 11u);

        dirty(0, 0, 0);
        shed_configure();
        EXPECT(violations == 0 && shed_verify() == 0u && ce == 0);
        shed_listen();
        EXPECT(violations == 0 && ce == 1 && registers[0][0] == SHED_CONFIG_LISTEN);

        /* The earlier part, locked or left open by the program before, CE tied high. */
        dirty(1, round & 1, 1);
        shelf_configure();
        EXPECT(violations == 0 && is_open == 1 && activations == !(round & 1) && registers[0x1D][0] != 0 && shelf_verify() == 0u);
        shelf_configure();
        EXPECT(is_open == 1 && shelf_verify() == 0u);
        registers[6][0] ^= 1u;
        EXPECT(shelf_verify() == 1u);
        is_open = 0;
        EXPECT(shelf_verify() > 1u);

        dirty(0, 0, 0);
        bench_configure();
        EXPECT(violations == 0 && bench_verify() == 0u);
        bench_listen();
        EXPECT(violations == 0 && ce == 1 && registers[0][0] == BENCH_CONFIG_LISTEN && registers[2][0] == 0x06 && holds(0x0B, from_rack));
        bench_aim_shelf();
        EXPECT(violations == 0 && ce == 0 && registers[0][0] == BENCH_CONFIG_SEND && registers[2][0] == 0x07 && holds(0x10, to_shelf) && holds(0x0A, to_shelf));
        bench_aim_rack();
        EXPECT(violations == 0 && holds(0x10, to_rack) && holds(0x0A, to_rack));
        bench_listen();
        EXPECT(violations == 0 && ce == 1 && registers[2][0] == 0x06 && registers[0][0] == BENCH_CONFIG_LISTEN);
        bench_configure();
        EXPECT(violations == 0 && bench_verify() == 0u);
    }
    printf("%d faults\n", faults);
    return faults != 0;
}
