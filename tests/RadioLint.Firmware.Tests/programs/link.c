/* The link layer on the small chip of fake_chip.h: every outcome, every role, and nothing that the data sheet forbids. */
#include "fake_chip.h"

#include "bench_radio.h"
#include "counter_radio.h"
#include "hive_1_radio.h"
#include "shed_radio.h"
#include "shelf_radio.h"
#include "yard_radio.h"

static int checks, faults;
#define EXPECT(condition) do { ++checks; if (!(condition)) { if (++faults < 20) printf("line %d: %s (%s)\n", __LINE__, #condition, chip.first_violation ? chip.first_violation : "nothing forbidden"); } } while (0)

static struct radio_link link;
static struct radio_packet packet;
static const uint8_t sample[40] = { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16 };

static void one_arrives(void) { (void)arrives(1, sample, 7); }
static void ring(void) { radio_link_ring(&link); }
static int holds(int address, const uint8_t *bytes) { return memcmp(chip.registers[address], bytes, 5) == 0; }
static int is_standby(void) { return chip.ce == 0 && chip.tx.count == 0 && (flags() & 0x30u) == 0u && (chip.registers[0][0] & 2u); }

static void starts(void)
{
    new_chip();
    memset(&link, 0xA5, sizeof link);
    EXPECT(hive_1_link_start(&link) == RADIO_OK && link.state == RADIO_STATE_STANDBY && chip.violations == 0);
    EXPECT(chip.now - 100000.0 < 10000.0 && link.retries == 0 && link.answered == 0 && link.rang == 0);
    new_chip();
    chip.floating = 1;
    EXPECT(hive_1_link_start(&link) == RADIO_NO_RADIO && link.state == RADIO_STATE_NEW);
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_NOT_READY && radio_link_listen(&link) == RADIO_NOT_READY);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOT_READY && radio_link_watch(&link) == RADIO_NOT_READY && radio_link_wake(&link) == RADIO_NOT_READY);
    /* The earlier part under a plan for the later one that needs no unlocking: features stay shut, and that shows. */
    new_chip();
    chip.earlier = 1;
    EXPECT(hive_1_link_start(&link) == RADIO_DIFFERS && link.state == RADIO_STATE_NEW);
    /* Planned for it: unlocked once, and not shut again by the next start. */
    new_chip();
    chip.earlier = chip.tied = chip.ce = 1;
    EXPECT(shelf_link_start(&link) == RADIO_OK && chip.open == 1 && chip.violations == 0);
    EXPECT(shelf_link_start(&link) == RADIO_OK && chip.open == 1 && chip.violations == 0);
    /* Again from listening. */
    new_chip();
    EXPECT(shed_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK && chip.ce == 1);
    EXPECT(shed_link_start(&link) == RADIO_OK && chip.ce == 0 && link.state == RADIO_STATE_STANDBY && chip.violations == 0);
}

static void sends(void)
{
    static const uint8_t to_shed[] = HIVE_1_TO_SHED_READING_ADDRESS;
    int sent;
    new_chip();
    EXPECT(hive_1_link_start(&link) == RADIO_OK);
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_OK && link.retries == 0 && is_standby());
    EXPECT(chip.sent == 1 && chip.sent_length == HIVE_1_READING_LENGTH && memcmp(chip.sent_bytes, sample, HIVE_1_READING_LENGTH) == 0 && chip.sent_asks == 1 && memcmp(chip.sent_to, to_shed, 5) == 0);
    chip.peer_takes_attempt = 4;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_OK && link.retries == 3 && chip.now - chip.sending_until < 200.0);
    chip.peer_takes_attempt = 0;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_GAVE_UP && link.retries == HIVE_1_RETRY_LIMIT && is_standby());
    EXPECT(chip.now - chip.sending_until < 200.0);
    /* What an earlier program left behind decides nothing. */
    chip.registers[7][0] |= 0x30u;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_GAVE_UP && chip.violations == 0);
    chip.peer_takes_attempt = 1;
    EXPECT(hive_1_send_shed_reading(&link, sample + 1) == RADIO_OK && chip.sent_bytes[0] == 2 && is_standby());
    EXPECT(chip.violations == 0 && link.rang == 0);

    /* Lengths that no packet has. */
    sent = chip.sent;
    EXPECT(radio_link_send(&link, link.frames, RADIO_WORD_ASKING, sample, 0u) == RADIO_NOT_READY && radio_link_send(&link, link.frames, RADIO_WORD_ASKING, sample, 33u) == RADIO_NOT_READY);
    EXPECT(radio_link_send(&link, link.frames, RADIO_WORD_ASKING, sample, 32u) == RADIO_OK && chip.sent == sent + 1 && chip.violations == 0);

    /* A payload in the acknowledgement. */
    memcpy(chip.peer_payload, sample, 32);
    chip.peer_payload_length = 4;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_OK && link.rang == 1);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == HIVE_1_FROM_SHED_ORDER_PIPE && packet.count == 4 && memcmp(packet.bytes, sample, 4) == 0 && link.rang == 0);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOTHING && flags() == 0u && chip.violations == 0);
    chip.peer_payload_length = 0;

    /* A radio that never says how it went: the wait ends. */
    chip.deaf = 1;
    {
        const double before = chip.now;
        EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_NOT_READY);
        EXPECT(chip.now - before >= 100000.0 && chip.now - before < 110000.0);
    }
    /* Gone while it sends, gone before. */
    new_chip();
    EXPECT(hive_1_link_start(&link) == RADIO_OK);
    chip.floating = 1;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_NO_RADIO && radio_link_fetch(&link, &packet) == RADIO_NO_RADIO && radio_link_watch(&link) == RADIO_NO_RADIO);
    chip.floating = 0;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_OK);

    /* The longest sending that the table of retries allows stays within the wait. */
    chip.registers[4][0] = 0xFFu;
    chip.peer_takes_attempt = 0;
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_GAVE_UP && link.retries == 15);
    EXPECT(radio_link_listen(&link) == RADIO_NOT_READY && radio_link_answer(&link, 1u, sample, 1u) == RADIO_NOT_READY);
    EXPECT(chip.violations == 0);
}

static void receives(void)
{
    int place;
    new_chip();
    EXPECT(shed_link_start(&link) == RADIO_OK && radio_link_fetch(&link, &packet) == RADIO_NOTHING);
    chip.irq = ring;
    EXPECT(radio_link_listen(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK && chip.ce == 1 && link.state == RADIO_STATE_LISTENING);
    EXPECT(link.rang == 0 && radio_link_fetch(&link, &packet) == RADIO_NOTHING);
    EXPECT(arrives(1, sample, 9) && arrives(3, sample + 1, 5) && arrives(1, sample + 2, 32) && !arrives(2, sample, 9));
    EXPECT(link.rang == 1);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 1 && packet.count == 9 && memcmp(packet.bytes, sample, 9) == 0);
    EXPECT(link.rang == 1 && radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 3 && packet.count == 5 && packet.bytes[0] == 2);
    EXPECT(link.rang == 1 && radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 1 && packet.count == 32 && packet.bytes[0] == 3);
    EXPECT(link.rang == 0 && radio_link_fetch(&link, &packet) == RADIO_NOTHING && flags() == 0u && chip.irq_is_low == 0);
    EXPECT(arrives(2, sample, 1) && link.rang == 1 && radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 2 && packet.count == 1);
    EXPECT(chip.violations == 0 && chip.ce == 1);
    EXPECT(arrives(5, sample, 2) && radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 5 && packet.count == 2);

    /* Flags of an earlier program go; a packet that comes at that very moment does not. */
    chip.registers[7][0] |= 0x70u;
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOTHING && flags() == 0u);
    chip.registers[7][0] |= 0x10u;
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOTHING && flags() == 0u);
    chip.registers[7][0] |= 0x40u;
    chip.event_word = 0x27;
    chip.event = one_arrives;
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 1 && packet.count == 7);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOTHING && chip.violations == 0);
    /* A pipe that is misread once, at any place; and one that never reads twice alike. */
    for (place = 1; place <= 8; ++place) {
        EXPECT(arrives(2, sample, 6));
        chip.glitch_at = place;
        EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 2 && packet.count == 6);
        chip.glitch_at = 0;
    }
    EXPECT(arrives(2, sample, 6));
    chip.glitch_at = -1;
    place = chip.spi_bytes;
    (void)radio_link_fetch(&link, &packet);
    EXPECT(chip.spi_bytes - place < 60);
    chip.glitch_at = 0;
    (void)radio_link_fetch(&link, &packet);
    link.answered = 0;
    chip.flushes_rx = 1;
    chip.violations = 0;

    /* A corrupt length: all of it goes, the acknowledgement first, and listening goes on. */
    EXPECT(arrives(1, sample, 9));
    chip.wrong_width = 33;
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_CORRUPT && chip.rx.count == 0 && chip.flushes_rx == 2 && chip.ce == 1 && flags() == 0u);
    EXPECT(arrives(1, sample, 9) && radio_link_fetch(&link, &packet) == RADIO_OK && chip.violations == 0);
    EXPECT(arrives(1, sample, 9));
    chip.wrong_width = 255;
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_CORRUPT && chip.violations == 0);

    /* Answers: three wait at most, each leaves with the acknowledgement on its pipe, and the program learns of it. */
    EXPECT(shed_answer_hive_1_order(&link, sample) == RADIO_OK && shed_answer_hive_2_order(&link, sample) == RADIO_OK && shed_answer_hive_1_order(&link, sample) == RADIO_OK);
    EXPECT(shed_answer_hive_3_order(&link, sample) == RADIO_FULL && chip.tx.count == 3);
    EXPECT(arrives(SHED_TO_HIVE_2_ORDER_PIPE, sample, 9) && link.answered == 0);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && link.answered == 1 && chip.tx.count == 2 && flags() == 0u);
    link.answered = 0;
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOTHING && link.answered == 0);
    radio_link_drop_answers();
    EXPECT(chip.tx.count == 0);
    EXPECT(radio_link_answer(&link, 5u, sample, 32u) == RADIO_OK && radio_link_answer(&link, 6u, sample, 1u) == RADIO_NOT_READY && radio_link_answer(&link, 1u, sample, 33u) == RADIO_NOT_READY && radio_link_answer(&link, 1u, sample, 0u) == RADIO_NOT_READY);
    chip.floating = 1;
    EXPECT(radio_link_answer(&link, 1u, sample, 1u) == RADIO_NO_RADIO);
    chip.floating = 0;
    EXPECT(chip.violations == 0);

    /* Fixed lengths, two of them: the length is the pipe's. */
    new_chip();
    EXPECT(counter_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK);
    EXPECT(arrives(1, sample, 12) && arrives(2, sample, 16));
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 1 && packet.count == 12);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 2 && packet.count == 16);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_NOTHING && chip.violations == 0);
}

static void changes_roles(void)
{
    static const uint8_t to_rack[] = BENCH_TO_RACK_FLAGS_ADDRESS;
    static const uint8_t to_shelf[] = BENCH_TO_SHELF_MARKER_ADDRESS;
    double before;
    new_chip();
    EXPECT(bench_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK && chip.registers[2][0] == 0x06);
    EXPECT(bench_send_shelf_marker(&link, sample) == RADIO_OK && chip.ce == 0 && memcmp(chip.sent_to, to_shelf, 5) == 0);
    EXPECT(bench_send_rack_flags(&link, sample) == RADIO_OK && memcmp(chip.sent_to, to_rack, 5) == 0 && holds(0x0A, to_rack));
    EXPECT(radio_link_watch(&link) == RADIO_OK && radio_link_fetch(&link, &packet) == RADIO_NOTHING);
    EXPECT(radio_link_listen(&link) == RADIO_OK && chip.registers[2][0] == 0x06 && chip.registers[0][0] == BENCH_CONFIG_LISTEN && radio_link_watch(&link) == RADIO_OK);
    /* A packet has just come when it turns to send: its acknowledgement goes out first, and it is still there afterwards. */
    EXPECT(arrives(1, sample, 5));
    before = chip.now;
    EXPECT(bench_send_rack_flags(&link, sample) == RADIO_OK && chip.violations == 0 && chip.now - before < 4000.0);
    EXPECT(radio_link_fetch(&link, &packet) == RADIO_OK && packet.pipe == 1 && packet.count == 5);
    EXPECT(radio_link_listen(&link) == RADIO_OK && arrives(2, sample, 5) && radio_link_fetch(&link, &packet) == RADIO_OK && chip.violations == 0);

    /* An answer that still waits does not go out in the packet's place. */
    push(&chip.tx, 1, 1, sample + 9, 3);
    EXPECT(bench_send_rack_flags(&link, sample) == RADIO_OK && chip.sent_length == BENCH_FLAGS_LENGTH && chip.sent_bytes[0] == sample[0]);

    /* Without acknowledgement, to all who listen. */
    new_chip();
    EXPECT(counter_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK);
    chip.peer_takes_attempt = 0;
    EXPECT(counter_send_broadcast_tick(&link, sample) == RADIO_OK && chip.sent_asks == 0 && chip.sent_length == COUNTER_TICK_LENGTH);
    EXPECT(counter_send_jar_shelf_reading(&link, sample) == RADIO_GAVE_UP && chip.sent_asks == 1);
    EXPECT(radio_link_listen(&link) == RADIO_OK && chip.ce == 1 && chip.violations == 0);
}

/* CE is always high: it listens from power up on, only a power down ends that, and what is loaded goes out by itself. */
static void changes_roles_with_ce_tied(void)
{
    new_chip();
    chip.earlier = chip.tied = chip.ce = 1;
    EXPECT(shelf_link_start(&link) == RADIO_OK && link.state == RADIO_STATE_LISTENING && radio_link_listen(&link) == RADIO_OK);
    EXPECT(arrives(1, sample, 5) && radio_link_fetch(&link, &packet) == RADIO_OK && packet.count == 5);
    EXPECT(arrives(1, sample, 5) && shelf_send_bench_named(&link, sample) == RADIO_OK && chip.sent == 1 && chip.sent_asks == 0);
    EXPECT(chip.registers[0][0] == SHELF_CONFIG_SEND && shelf_send_bench_named(&link, sample) == RADIO_OK && chip.sent == 2 && chip.violations == 0);
    EXPECT(radio_link_watch(&link) == RADIO_OK && radio_link_fetch(&link, &packet) == RADIO_OK);
    EXPECT(radio_link_listen(&link) == RADIO_OK && chip.registers[0][0] == SHELF_CONFIG_LISTEN && arrives(1, sample, 5) && radio_link_fetch(&link, &packet) == RADIO_OK);
    radio_link_rest(&link);
    EXPECT(!arrives(1, sample, 5) && radio_link_wake(&link) == RADIO_OK && link.state == RADIO_STATE_LISTENING && arrives(1, sample, 5));
    reset_chip();
    chip.open = 0;
    EXPECT(radio_link_watch(&link) == RADIO_MENDED && arrives(1, sample, 5) && radio_link_fetch(&link, &packet) == RADIO_OK);
    EXPECT(chip.violations == 0);
}

static void rests(void)
{
    new_chip();
    EXPECT(hive_1_link_start(&link) == RADIO_OK && radio_link_wake(&link) == RADIO_NOT_READY);
    radio_link_rest(&link);
    EXPECT(chip.registers[0][0] == HIVE_1_CONFIG_DOWN && link.state == RADIO_STATE_RESTING && radio_link_watch(&link) == RADIO_NOT_READY);
    EXPECT(hive_1_send_shed_reading(&link, sample) == RADIO_NOT_READY && radio_link_fetch(&link, &packet) == RADIO_NOT_READY && chip.sent == 0);
    EXPECT(radio_link_wake(&link) == RADIO_OK && chip.registers[0][0] == HIVE_1_CONFIG_SEND && hive_1_send_shed_reading(&link, sample) == RADIO_OK);
    EXPECT(hive_1_verify() == 0u && chip.violations == 0);
    radio_link_rest(&link);
    chip.floating = 1;
    EXPECT(radio_link_wake(&link) == RADIO_NO_RADIO);

    new_chip();
    EXPECT(bench_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK && arrives(1, sample, 5));
    radio_link_rest(&link);
    EXPECT(chip.ce == 0 && chip.registers[0][0] == BENCH_CONFIG_DOWN);
    EXPECT(radio_link_wake(&link) == RADIO_OK && chip.registers[0][0] == BENCH_CONFIG_LISTEN && radio_link_listen(&link) == RADIO_OK);
    EXPECT(bench_send_shelf_marker(&link, sample) == RADIO_OK);
    radio_link_rest(&link);
    EXPECT(radio_link_wake(&link) == RADIO_OK && chip.registers[0][0] == BENCH_CONFIG_SEND && bench_send_shelf_marker(&link, sample) == RADIO_OK);
    EXPECT(chip.violations == 0);
}

static void is_watched(void)
{
    static const uint8_t to_rack[] = BENCH_TO_RACK_FLAGS_ADDRESS;
    int address;
    new_chip();
    EXPECT(shed_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK && radio_link_watch(&link) == RADIO_OK);
    reset_chip();
    EXPECT(radio_link_watch(&link) == RADIO_MENDED && chip.ce == 1 && link.state == RADIO_STATE_LISTENING && shed_verify() == 0u);
    EXPECT(arrives(1, sample, 9) && radio_link_fetch(&link, &packet) == RADIO_OK && chip.violations == 0);
    /* One bit of any register that the plan writes, in any role. */
    new_chip();
    EXPECT(bench_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK && bench_send_rack_flags(&link, sample) == RADIO_OK);
    for (address = 0; address <= 0x1D; ++address) {
        if (address > 6 && address != 0x0A && address != 0x0B && address != 0x0C && address != 0x10 && address < 0x1C)
            continue;
        chip.registers[address][0] ^= 4u;
        EXPECT(radio_link_watch(&link) == RADIO_MENDED && link.state == RADIO_STATE_STANDBY && holds(0x10, to_rack) && radio_link_watch(&link) == RADIO_OK);
        EXPECT(bench_send_rack_flags(&link, sample) == RADIO_OK);
    }
    chip.registers[6][0] ^= 1u; /* no such bit on this part */
    EXPECT(radio_link_watch(&link) == RADIO_OK && chip.violations == 0);
    reset_chip();
    chip.earlier = 1;
    EXPECT(radio_link_watch(&link) == RADIO_DIFFERS);
    chip.earlier = 0;
    EXPECT(radio_link_watch(&link) == RADIO_MENDED && chip.registers[0][0] == BENCH_CONFIG_SEND && holds(0x0A, to_rack));
    /* Away, back with reset values, and only the third look succeeds. */
    new_chip();
    EXPECT(shed_link_start(&link) == RADIO_OK && radio_link_listen(&link) == RADIO_OK);
    chip.floating = 1;
    EXPECT(radio_link_watch(&link) == RADIO_NO_RADIO && link.state == RADIO_STATE_LISTENING);
    chip.floating = 0;
    reset_chip();
    chip.earlier = 1;
    EXPECT(radio_link_watch(&link) == RADIO_DIFFERS && link.state == RADIO_STATE_LISTENING);
    chip.earlier = 0;
    EXPECT(radio_link_watch(&link) == RADIO_MENDED && arrives(1, sample, 9) && radio_link_fetch(&link, &packet) == RADIO_OK);
}

int main(void)
{
    starts();
    sends();
    receives();
    changes_roles();
    changes_roles_with_ce_tied();
    rests();
    is_watched();
    printf("%d checks, %d faults\n", checks, faults);
    return faults != 0;
}
