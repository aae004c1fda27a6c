/* Listens. Two flashes: a reading arrived and reads well. Four: something arrived that is not a reading. */
#include "hooks.h"
#include "hall_radio.h"

int main(void)
{
    struct hall_reading reading;
    uint8_t bytes[32];

    start_board();
    hall_configure();
    radio_ce_level(1u);
    for (;;) {
        uint8_t count;
        if ((status_of_radio() & 0x40u) == 0u) /* RX_DR */
            continue;
        radio_put(0x07u, 0x40u);
        radio_select();
        (void)radio_exchange(0x60u); /* R_RX_PL_WID */
        count = radio_exchange(0xFFu);
        radio_release();
        if (count == 0u || count > 32u) {
            radio_select();
            (void)radio_exchange(0xE2u); /* FLUSH_RX: a length above 32 is a corrupt packet */
            radio_release();
            continue;
        }
        radio_select();
        (void)radio_exchange(0x61u); /* R_RX_PAYLOAD */
        for (uint8_t i = 0; i < count; ++i)
            bytes[i] = radio_exchange(0xFFu);
        radio_release();
        flash(hall_reading_decode(&reading, bytes, count) != 0u ? 2u : 4u);
    }
}
