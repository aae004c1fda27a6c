/* A board for the emitted programs on this machine: the chip of fake_chip.h, a serial port on standard input and output, and a clock that
   turns while the program asks for it. argv cannot reach a program's main without arguments, so the environment says what happens:
   SECONDS how long it runs, CHIP what the radio is (fresh, gone, other, alone, dips), PACKETS how many arrive. */
#include <stdlib.h>

#include "fake_chip.h"

void radio_board_start(void);
uint8_t radio_board_second(void);
void radio_console_put(uint8_t byte);
uint8_t radio_console_take(uint8_t *byte);

#define ASKS_A_SECOND 400

static const char *chip_is;
static int asked, packets;
/* All that comes by the serial port, read to its end before the clock starts: what a program takes must not hang on how fast the writer is. */
static char typed[16384];
static size_t typed_length, taken;

static int number(const char *name, int usual) { return getenv(name) ? atoi(getenv(name)) : usual; }

static void leave(int status)
{
    fflush(stdout);
    if (chip.violations)
        fprintf(stderr, "%d forbidden: %s\n", chip.violations, chip.first_violation);
    exit(chip.violations ? 2 : status);
}

void radio_board_start(void)
{
    int i;
    typed_length = fread(typed, 1, sizeof typed, stdin);
    new_chip();
    chip_is = getenv("CHIP") ? getenv("CHIP") : "fresh";
    packets = number("PACKETS", 0);
    chip.floating = strcmp(chip_is, "gone") == 0;
    chip.earlier = strcmp(chip_is, "other") == 0;
    chip.peer_takes_attempt = strcmp(chip_is, "alone") == 0 ? 0 : 2;
    for (i = 0; i < 126; ++i)
        chip.busy[i] = (uint8_t)(i % 25 == 3);
    chip.ce = 1;       /* as an earlier program may have left it */
    chip.ce_rose = 0.0;
    chip.registers[0][0] = 0x0F;
    chip.ce = 0;
}

uint8_t radio_board_second(void)
{
    static const uint8_t bytes[32] = { 0xDE, 0xAD, 0xBE, 0xEF, 0x01, 0x23, 0x45, 0x67, 0x89 };
    ++asked;
    passes(20.0);
    if (asked == ASKS_A_SECOND / 2 && strcmp(chip_is, "dips") == 0)
        reset_chip();
    if (packets > 0 && asked % 7 == 0 && arrives(1 + packets % 3, bytes, packets == 1 ? 32 : 9))
        --packets;
    if (asked % ASKS_A_SECOND != 0)
        return 0u;
    if (asked / ASKS_A_SECOND > number("SECONDS", 3))
        leave(0);
    return 1u;
}

void radio_console_put(uint8_t byte)
{
    /* A program that never asks for the second, a survey, ends by what it says. */
    static long said;
    putchar(byte);
    if (++said > number("LETTERS", 1000000) && byte == '\n')
        leave(0);
}

uint8_t radio_console_take(uint8_t *byte)
{
    if (taken == typed_length)
        return 0u;
    *byte = (uint8_t)typed[taken++];
    return 1u;
}
