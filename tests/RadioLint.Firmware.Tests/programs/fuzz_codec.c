/* Hostile packets into every decoder. codecs.h, written by the tests, says of each how long it is, which bytes it must demand, which bits count and where text lies:
   by hand from the manifests, not by the headers. */
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void radio_select(void) { }
void radio_release(void) { }
uint8_t radio_exchange(uint8_t out) { return out; }
void radio_ce_level(uint8_t high) { (void)high; }
void radio_wait_us(uint16_t us) { (void)us; }

struct codec {
    const char *name;
    int (*run)(const uint8_t *bytes, uint8_t count, uint8_t *again);
    uint8_t length;
    uint8_t may_refuse;       /* 1: values may lie outside a range, which encode refuses */
    uint8_t demanded[32];     /* bits that must be as in `value`, and their value */
    uint8_t value[32];
    uint8_t counts[32];       /* bits that mean something */
    uint8_t text[4][2];       /* from, length; what follows its first zero means nothing */
};

enum { REFUSED = 0, DECODED = 1, ENCODED = 2, SPOILT = 4 };

#define MUST(condition) do { if (!(condition)) { fprintf(stderr, "%s: line %d: %s\n", codec->name, __LINE__, #condition); abort(); } } while (0)
#define UNTOUCHED(object) untouched(&(object), sizeof(object))

static int untouched(const void *object, size_t size)
{
    size_t i;
    for (i = 0; i < size; ++i)
        if (((const uint8_t *)object)[i] != 0xA5u)
            return 0;
    return 1;
}

#include "codecs.h"

static void as_sent(const struct codec *codec, const uint8_t *bytes, uint8_t *sent)
{
    unsigned i, j;
    for (i = 0; i < codec->length; ++i)
        sent[i] = bytes[i] & codec->counts[i];
    for (i = 0; i < 4; ++i) {
        unsigned ended = 0;
        for (j = 0; j < codec->text[i][1]; ++j) {
            uint8_t *const byte = &sent[codec->text[i][0] + j];
            ended |= *byte == 0u;
            if (ended)
                *byte = 0u;
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Two bytes say which decoder, and what is put right, since it is too seldom right by chance: 0x40 the length, 0x80 the constants, but with 0x20 for one byte that
   is a near miss. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 2 || size > 257)
        return 0;
    {
        const struct codec *const codec = &codecs[data[0] % (sizeof codecs / sizeof codecs[0])];
        const uint8_t mend = data[1];
        const uint8_t given = (uint8_t)(size - 2), count = (mend & 0x40u) ? codec->length : given;
        /* Exactly as long as it says: a byte too many read or written is seen. */
        uint8_t *const bytes = (uint8_t *)calloc(count ? count : 1u, 1);
        uint8_t *const again = (uint8_t *)malloc(codec->length);
        int accepts = count == codec->length, result;
        unsigned i;
        memcpy(bytes, data + 2, given < count ? given : count);
        for (i = 0; (mend & 0x80u) && i < count && i < sizeof codec->value; ++i) {
            const uint8_t miss = ((mend & 0x20u) && i == (mend & 0x1Fu)) ? (bytes[i] & 7u) : 0u;
            bytes[i] = (uint8_t)((bytes[i] & ~codec->demanded[i]) | (codec->value[i] ^ (miss & codec->demanded[i])));
        }
        memset(again, 0xA5, codec->length);
        for (i = 0; accepts && i < count; ++i)
            accepts = (bytes[i] & codec->demanded[i]) == codec->value[i];
        result = codec->run(bytes, count, again);
        MUST((result & SPOILT) == 0);
        MUST(((result & DECODED) != 0) == accepts);
        if (accepts && (result & ENCODED)) {
            uint8_t sent[32];
            as_sent(codec, bytes, sent);
            MUST(memcmp(sent, again, codec->length) == 0);
        } else if (accepts) {
            MUST(codec->may_refuse && untouched(again, codec->length));
        }
        free(bytes);
        free(again);
    }
    return 0;
}
