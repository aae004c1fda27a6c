/* Hostile serial lines into the reader of orders, and hostile packets into the writer of reports. What is right is decided here by slower means: the whole text is
   searched for line ends, and the check value is a long division of polynomials. */
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define RADIO_OWN_HOOKS
static uint8_t said[1024];
static size_t said_count;
static void radio_select(void) { }
static void radio_release(void) { }
static uint8_t radio_exchange(uint8_t out) { return out; }
static void radio_ce_level(uint8_t high) { (void)high; }
static void radio_wait_us(uint16_t us) { (void)us; }
static void radio_console_put(uint8_t byte)
{
    if (said_count < sizeof said)
        said[said_count++] = byte;
}

#include "radio_report.h"

#define NODE "drill"
#define MUST(condition) do { if (!(condition)) { fprintf(stderr, "line %d: %s\n", __LINE__, #condition); abort(); } } while (0)

/* The text times x^8 modulo x^8 + x^2 + x + 1; a start value of 0xFF flips the first eight bits. */
static unsigned check_of(const uint8_t *text, size_t count)
{
    static uint8_t bits[8 * 400 + 8];
    size_t i;
    unsigned rest = 0;
    MUST(count >= 1 && count <= 400);
    memset(bits, 0, sizeof bits);
    for (i = 0; i < 8 * count; ++i)
        bits[i] = (uint8_t)(((text[i / 8] >> (7 - i % 8)) & 1) ^ (i < 8));
    for (i = 0; i < 8 * count; ++i)
        if (bits[i]) {
            bits[i] = 0;
            bits[i + 6] ^= 1;
            bits[i + 7] ^= 1;
            bits[i + 8] ^= 1;
        }
    for (i = 0; i < 8; ++i)
        rest = rest << 1 | bits[8 * count + i];
    return rest;
}

/* The bytes of an order to NODE, or 0: `rl1 tx NODE BYTES *CC`, nothing before and nothing behind. */
static unsigned order_of(const uint8_t *line, size_t count, uint8_t *bytes)
{
    static const char begin[] = "rl1 tx " NODE " ";
    char hex[3];
    size_t i, digits;
    if (count < sizeof begin - 1 + 2 + 4 || memcmp(line, begin, sizeof begin - 1) != 0)
        return 0;
    digits = count - (sizeof begin - 1) - 4;
    if (digits % 2 != 0 || digits / 2 > 32)
        return 0;
    for (i = 0; i < digits; ++i)
        if (strchr("0123456789ABCDEF", line[sizeof begin - 1 + i]) == NULL || line[sizeof begin - 1 + i] == 0)
            return 0;
    for (i = 0; i < digits; i += 2) {
        memcpy(hex, line + sizeof begin - 1 + i, 2);
        hex[2] = 0;
        bytes[i / 2] = (uint8_t)strtoul(hex, NULL, 16);
    }
    snprintf(hex, sizeof hex, "%02X", check_of(line, count - 4));
    return line[count - 4] == ' ' && line[count - 3] == '*' && memcmp(line + count - 2, hex, 2) == 0 ? (unsigned)(digits / 2) : 0u;
}

/* Every line of a text, by the reader and by search. */
static void read_all(const uint8_t *text, size_t count)
{
    struct radio_line *const line = (struct radio_line *)malloc(sizeof *line);
    size_t begin = 0, i;
    radio_line_clear(line);
    for (i = 0; i < count; ++i) {
        const uint8_t whole = radio_line_gather(line, text[i]);
        const int ends = text[i] == '\n' || text[i] == '\r';
        MUST(whole == (ends && i > begin && i - begin <= 120));
        if (whole) {
            uint8_t *const bytes = (uint8_t *)malloc(32);
            uint8_t wanted[32];
            const unsigned right = order_of(text + begin, i - begin, wanted);
            MUST(line->count == i - begin && memcmp(line->bytes, text + begin, i - begin) == 0);
            MUST(radio_line_order(line, NODE, bytes) == right);
            MUST(right == 0 || memcmp(bytes, wanted, right) == 0);
            free(bytes);
            radio_line_clear(line);
        }
        if (ends)
            begin = i + 1;
    }
    free(line);
}

/* What is printed is one line, as the C library would print it, with a right check value, and short enough. */
static void must_say(const char *text)
{
    char line[160];
    snprintf(line, sizeof line, "%s *%02X\r\n", text, check_of((const uint8_t *)text, strlen(text)));
    MUST(strlen(line) <= 122 && said_count == strlen(line) && memcmp(said, line, said_count) == 0);
    read_all(said, said_count);
    said_count = 0;
}

static void report(const uint8_t *data, size_t size)
{
    struct radio_packet packet;
    char text[140];
    int at;
    unsigned i;
    uint32_t number = 0u;
    memset(&packet, 0, sizeof packet);
    if (size < 2)
        return;
    for (i = 0; i < 4 && i < size; ++i)
        number = number << 8 | data[i];
    packet.pipe = data[0] % 6u;
    packet.count = data[1] % 33u;
    memcpy(packet.bytes, data + 2, size - 2 < packet.count ? size - 2 : packet.count);
    said_count = 0;
    radio_report_received(NODE, &packet);
    at = snprintf(text, sizeof text, "rl1 rx " NODE " %u ", (unsigned)packet.pipe);
    for (i = 0; i < packet.count; ++i)
        at += snprintf(text + at, sizeof text - (size_t)at, "%02X", packet.bytes[i]);
    must_say(text);
    radio_report_sent(NODE, data[0], data[1]);
    snprintf(text, sizeof text, "rl1 tx " NODE " %s %u", data[0] == RADIO_OK ? "ok" : data[0] == RADIO_GAVE_UP ? "gave-up" : "busy", (unsigned)data[1]);
    must_say(text);
    radio_report_beat(NODE, number);
    snprintf(text, sizeof text, "rl1 beat " NODE " %lu", (unsigned long)number);
    must_say(text);
    radio_report_boot(NODE, number, ~number);
    snprintf(text, sizeof text, "rl1 boot " NODE " %08lX %08lX", (unsigned long)number, (unsigned long)(uint32_t)~number);
    must_say(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The first byte says what the rest is: text as it stands; text that gets its right check value, and perhaps more; an order's bytes; a packet. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static uint8_t text[512];
    char check[5];
    size_t count;
    if (size < 2 || size > 300)
        return 0;
    count = size - 1;
    memcpy(text, data + 1, count);
    switch (data[0] & 3) {
    case 0:
        read_all(text, count);
        break;
    case 1:
    case 2:
        if ((data[0] & 3) == 2) {
            size_t i;
            count = (size_t)sprintf((char *)text, "rl1 tx " NODE " ");
            for (i = 1; i < size && i < 40; ++i)
                count += (size_t)sprintf((char *)text + count, "%02X", data[i]);
        }
        snprintf(check, sizeof check, " *%02X", check_of(text, count));
        memcpy(text + count, check, 4);
        count += 4;
        /* One bit wrong, or something behind. */
        if (data[0] & 4)
            text[(data[0] >> 3) % count] ^= (uint8_t)(1u << (data[size - 1] & 7));
        if (data[0] & 0x80)
            text[count++] = data[size - 1];
        text[count++] = '\n';
        read_all(text, count);
        break;
    default:
        report(data + 1, size - 1);
        break;
    }
    return 0;
}
