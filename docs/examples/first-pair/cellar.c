/* Sends a reading every two seconds. One flash: acknowledged. Three: nobody answered. Five: the radio does not hold what was planned. */
#include "hooks.h"
#include "cellar_radio.h"

int main(void)
{
    struct cellar_reading reading = {0, 0};
    uint8_t bytes[CELLAR_READING_LENGTH];

    start_board();
    cellar_configure();
    for (;;) {
        uint8_t status;
        reading.temperature = 215; /* 21.5 degC, in steps of 0.1 degC */
        ++reading.sequence;
        if (cellar_verify() != 0u || cellar_reading_encode(bytes, &reading) == 0u) {
            flash(5);
            cellar_configure();
            continue;
        }
        radio_select();
        (void)radio_exchange(0xA0u); /* W_TX_PAYLOAD */
        for (uint8_t i = 0; i < CELLAR_READING_LENGTH; ++i)
            (void)radio_exchange(bytes[i]);
        radio_release();
        radio_ce_level(1u);
        radio_wait_us(RADIO_CE_PULSE_US);
        radio_ce_level(0u);
        for (uint8_t wait = 0; wait < 200u && (status_of_radio() & 0x30u) == 0u; ++wait)
            radio_wait_us(200u); /* TX_DS or MAX_RT: all fifteen repetitions fit into 40 ms */
        status = status_of_radio();
        radio_put(0x07u, 0x70u); /* clear the flags */
        if ((status & 0x20u) == 0u) {
            radio_select();
            (void)radio_exchange(0xE1u); /* FLUSH_TX: an unsent payload stays in the way */
            radio_release();
        }
        flash((status & 0x20u) != 0u ? 1u : 3u);
        _delay_ms(2000);
    }
}
