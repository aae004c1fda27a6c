/* A small chip of the tests' own behind the five hooks, with a clock that runs by waits and SPI bytes, and a peer that does as told.
   It counts what the data sheet forbids. What it says of a real part is what its author read there (nRF24L01+ Product Specification v1.0). */
#ifndef FAKE_CHIP_H
#define FAKE_CHIP_H

#include <stdint.h>
#include <stdio.h>
#include <string.h>

struct fifo { int count; struct { int pipe, length, asks; uint8_t bytes[32]; } at[3]; };

static struct {
    uint8_t registers[32][5];
    struct fifo rx, tx;
    uint8_t frame[40];
    int length, selected, ce, tied, floating, deaf, earlier, open;
    double now, ce_rose, up_at, sending_until, acknowledging_until;
    int sending, violations, flushes_rx, flushes_tx, spi_bytes;
    const char *first_violation;
    /* The peer: acknowledges at the attempt of this number, 0 never; what rides back. */
    int peer_takes_attempt, peer_payload_length, wrong_width;
    uint8_t peer_payload[32];
    /* What went on air last. */
    int sent, sent_length, sent_asks;
    uint8_t sent_to[5], sent_bytes[32];
    void (*irq)(void);
    int irq_is_low;
    /* What happens at the end of a frame that begins with this word, once; which STATUS from now on has a wrong pipe, -1 every other. */
    void (*event)(void);
    int event_word, glitch_at;
    /* Channels on which something is on air. */
    uint8_t busy[128];
} chip;

static int is_wide(int address) { return address == 0x0A || address == 0x0B || address == 0x10; }
static uint8_t flags(void) { return (uint8_t)(chip.registers[7][0] & 0x70u); }

static void violates(const char *what)
{
    if (chip.violations++ == 0)
        chip.first_violation = what;
}

static void fall(void)
{
    const int low = (flags() & (uint8_t)~chip.registers[0][0] & 0x70u) != 0;
    if (low && !chip.irq_is_low && chip.irq)
        chip.irq();
    chip.irq_is_low = low;
}

static void push(struct fifo *fifo, int pipe, int asks, const uint8_t *bytes, int length)
{
    fifo->at[fifo->count].pipe = pipe;
    fifo->at[fifo->count].asks = asks;
    fifo->at[fifo->count].length = length;
    memcpy(fifo->at[fifo->count].bytes, bytes, (size_t)length);
    ++fifo->count;
}

static void drop(struct fifo *fifo, int index)
{
    memmove(&fifo->at[index], &fifo->at[index + 1], sizeof fifo->at[0] * (size_t)(2 - index));
    --fifo->count;
}

static int is_up(void) { return (chip.registers[0][0] & 2u) && chip.now >= chip.up_at + 4500.0; }
static int is_receiving(void) { return is_up() && chip.ce && (chip.registers[0][0] & 1u); }

static int acknowledged(void)
{
    const int hears = (chip.registers[2][0] & 1u) && memcmp(chip.registers[0x0A], chip.registers[0x10], 5) == 0;
    return hears && chip.peer_takes_attempt > 0 && chip.peer_takes_attempt <= (chip.registers[4][0] & 0x0F) + 1;
}

static void end_sending(void)
{
    const int asks = chip.tx.at[0].asks && (chip.registers[1][0] & 1u);
    chip.sending = 0;
    chip.sent_asks = asks;
    chip.sent_length = chip.tx.at[0].length;
    memcpy(chip.sent_bytes, chip.tx.at[0].bytes, 32);
    memcpy(chip.sent_to, chip.registers[0x10], 5);
    ++chip.sent;
    if (asks && !acknowledged()) {
        chip.registers[8][0] = (uint8_t)(0x10u | (chip.registers[4][0] & 0x0Fu));
        chip.registers[7][0] |= 0x10u;
    } else {
        chip.registers[8][0] = (uint8_t)(asks ? chip.peer_takes_attempt - 1 : 0);
        chip.registers[7][0] |= 0x20u;
        drop(&chip.tx, 0);
        if (asks && chip.peer_payload_length > 0 && (chip.registers[0x1D][0] & 2u) && chip.rx.count < 3) {
            push(&chip.rx, 0, 0, chip.peer_payload, chip.peer_payload_length);
            chip.registers[7][0] |= 0x40u;
        }
    }
    fall();
}

static void start_sending(void)
{
    const int attempts = chip.peer_takes_attempt ? chip.peer_takes_attempt : (chip.registers[4][0] & 0x0F) + 1;
    if (chip.sending || chip.tx.count == 0 || !is_up() || (chip.registers[0][0] & 1u))
        return;
    if (chip.registers[7][0] & 0x10u) {
        violates("sends while MAX_RT is set");
        return;
    }
    chip.sending = 1;
    /* 130 us before each packet, 1316 us of packet and 4000 us of delay at the most (Table 19, Table 28): the longest there is. */
    chip.sending_until = chip.deaf ? 1e18 : chip.now + attempts * (130.0 + 1316.0) + (attempts - 1) * 250.0 * ((chip.registers[4][0] >> 4) + 1) + 300.0;
}

static void passes(double us)
{
    chip.now += us;
    if (chip.sending && chip.now >= chip.sending_until)
        end_sending();
    if (chip.tied && chip.tx.count > 0 && !(chip.registers[7][0] & 0x10u))
        start_sending();
}

/* A packet from the air; 1 when it was taken. */
static int arrives(int pipe, const uint8_t *bytes, int length)
{
    int i;
    if (!is_receiving() || !((chip.registers[2][0] >> pipe) & 1) || chip.rx.count == 3)
        return 0;
    push(&chip.rx, pipe, 0, bytes, length);
    chip.registers[7][0] |= 0x40u;
    if ((chip.registers[1][0] >> pipe) & 1) {
        chip.acknowledging_until = chip.now + 130.0 + 1316.0;
        for (i = 0; i < chip.tx.count; ++i) {
            if (chip.tx.at[i].pipe == pipe) {
                drop(&chip.tx, i);
                chip.registers[7][0] |= 0x20u;
                break;
            }
        }
    }
    fall();
    return 1;
}

/* After a dip of the supply: Table 28's reset values, as far as anybody here asks. */
static void reset_chip(void)
{
    static const uint8_t values[10] = { 0x08, 0x3F, 0x03, 0x03, 0x03, 0x02, 0x0E, 0x00, 0x00, 0x00 };
    int i;
    memset(chip.registers, 0, sizeof chip.registers);
    for (i = 0; i < 10; ++i)
        chip.registers[i][0] = values[i];
    memset(chip.registers[0x0A], 0xE7, 5);
    memset(chip.registers[0x10], 0xE7, 5);
    memset(chip.registers[0x0B], 0xC2, 5);
    chip.rx.count = chip.tx.count = chip.sending = 0;
    chip.acknowledging_until = 0.0;
}

static void new_chip(void)
{
    memset(&chip, 0, sizeof chip);
    reset_chip();
    chip.now = 100000.0;
    chip.peer_takes_attempt = 1;
}

static uint8_t status(void)
{
    static int turns;
    const int is_wrong = chip.glitch_at < 0 ? ++turns % 2 : chip.glitch_at > 0 && --chip.glitch_at == 0;
    if (is_wrong)
        return (uint8_t)(flags() | 0x0Cu);
    return (uint8_t)(flags() | (chip.rx.count ? chip.rx.at[0].pipe << 1 : 0x0E) | (chip.tx.count == 3 ? 1 : 0));
}

static uint8_t held(int address, int index)
{
    if (chip.earlier && !chip.open && address >= 0x1C)
        return 0u;
    if (address == 7)
        return status();
    if (address == 9) {
        /* 130 us to receive and 40 us to judge (6.4). */
        if (!is_receiving())
            return 0u;
        if (chip.now < (chip.tied ? chip.up_at + 4500.0 : chip.ce_rose) + 170.0)
            violates("RPD is read before it is valid");
        return chip.busy[chip.registers[5][0] & 0x7F];
    }
    if (address == 0x17)
        return (uint8_t)((chip.rx.count == 0) | ((chip.rx.count == 3) << 1) | ((chip.tx.count == 0) << 4) | ((chip.tx.count == 3) << 5));
    return chip.registers[address][is_wide(address) ? index % 5 : 0];
}

void radio_select(void)
{
    if (chip.selected)
        violates("CSN falls twice");
    if (chip.ce && !chip.tied && chip.now < chip.ce_rose + 4.0)
        violates("CSN falls too soon after CE rises");
    chip.selected = 1;
    chip.length = 0;
}

uint8_t radio_exchange(uint8_t out)
{
    uint8_t in = 0u;
    if (!chip.selected)
        violates("a byte without CSN");
    ++chip.spi_bytes;
    passes(1.0);
    if (chip.length < 40)
        chip.frame[chip.length] = out;
    if (chip.floating)
        in = 0xFFu;
    else if (chip.length == 0)
        in = status();
    else if (chip.frame[0] < 0x20u)
        in = held(chip.frame[0], chip.length - 1);
    else if (chip.frame[0] == 0x60u)
        in = (uint8_t)(chip.wrong_width ? chip.wrong_width : chip.rx.count ? chip.rx.at[0].length : 0);
    else if (chip.frame[0] == 0x61u && chip.rx.count && chip.length <= 32)
        in = chip.rx.at[0].bytes[chip.length - 1];
    ++chip.length;
    return in;
}

static void write_register(int address, int bytes)
{
    const int was_up = (chip.registers[0][0] & 2u) != 0, puts_down = address == 0 && !(chip.frame[1] & 2u);
    /* Power down, start-up's end or standby (Table 20); the power down itself may come at any time. */
    if (address != 7 && !puts_down && (chip.sending || is_receiving() || chip.now < chip.acknowledging_until || (was_up && !is_up())))
        violates("a register is written outside power down and standby");
    if (bytes < 1 || bytes > (is_wide(address) ? 5 : 1) || address == 8 || address == 9 || address > 0x1D || (address > 0x16 && address < 0x1C))
        violates("a register is written with a wrong length, or cannot be written");
    if (address == 7)
        chip.registers[7][0] &= (uint8_t)~(chip.frame[1] & 0x70u);
    else if (!(chip.earlier && !chip.open && address >= 0x1C))
        memcpy(chip.registers[address], chip.frame + 1, (size_t)bytes);
    if (address == 0 && !was_up && (chip.frame[1] & 2u))
        chip.up_at = chip.now;
    if (puts_down)
        chip.sending = 0;
    fall();
}

void radio_release(void)
{
    const int word = chip.frame[0], bytes = chip.length - 1;
    if (!chip.selected)
        violates("CSN rises twice");
    chip.selected = 0;
    if (chip.event && word == chip.event_word) {
        void (*const event)(void) = chip.event;
        chip.event = 0;
        event();
    }
    if (word >= 0x20 && word < 0x40)
        write_register(word & 0x1F, bytes);
    else if (word == 0x50 && bytes == 1 && chip.frame[1] == 0x73u)
        chip.open = !chip.open;
    else if (word == 0xA0 || word == 0xB0 || (word >= 0xA8 && word <= 0xAD)) {
        if ((chip.registers[0][0] & 2u) && !is_up())
            violates("a payload is loaded before the start-up is over");
        if (bytes < 1 || bytes > 32 || chip.tx.count == 3 || (word == 0xB0 && !(chip.registers[0x1D][0] & 1u)) || ((word & 8) && !(chip.registers[0x1D][0] & 2u)))
            violates("a payload that cannot be loaded");
        else
            push(&chip.tx, (word & 8) ? word & 7 : -1, word == 0xA0, chip.frame + 1, bytes);
    } else if (word == 0x61 && chip.rx.count) {
        if (bytes != chip.rx.at[0].length)
            violates("a payload is read with a wrong length");
        drop(&chip.rx, 0);
    } else if (word == 0xE1) {
        ++chip.flushes_tx;
        chip.tx.count = 0;
    } else if (word == 0xE2) {
        ++chip.flushes_rx;
        if (chip.now < chip.acknowledging_until || is_receiving())
            violates("FLUSH_RX while acknowledging, or while it may begin to");
        chip.rx.count = 0;
        chip.wrong_width = 0;
    }
}

void radio_ce_level(uint8_t high)
{
    if (chip.tied)
        return;
    if (high && !chip.ce) {
        chip.ce_rose = chip.now;
        chip.ce = 1;
        start_sending();
    } else if (!high && chip.ce) {
        if (chip.now < chip.ce_rose + 10.0)
            violates("a pulse on CE is shorter than 10 us");
        chip.ce = 0;
    }
}

void radio_wait_us(uint16_t us) { passes(us); }

#endif
