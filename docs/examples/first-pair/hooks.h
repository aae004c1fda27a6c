/* The five hooks for boards built round the ATmega328P, CE on D9 (PB1) and CSN on D10 (PB2): what the emitted headers ask a board for. */
#ifndef HOOKS_H
#define HOOKS_H

#define F_CPU 16000000UL
#include <avr/io.h>
#include <util/delay.h>
#include <stdint.h>

void radio_select(void) { PORTB &= (uint8_t)~(1u << 2); }
void radio_release(void) { PORTB |= (uint8_t)(1u << 2); }

uint8_t radio_exchange(uint8_t out)
{
    SPDR = out;
    while ((SPSR & (1u << SPIF)) == 0u) {
    }
    return SPDR;
}

void radio_ce_level(uint8_t high)
{
    if (high != 0u)
        PORTB |= (uint8_t)(1u << 1);
    else
        PORTB &= (uint8_t)~(1u << 1);
}

void radio_wait_us(uint16_t us)
{
    while (us-- != 0u)
        _delay_us(1);
}

/* SS (D10) must be an output before the SPI is switched on, or a low level there ends master mode; here it is CSN, so it is one. */
static void start_board(void)
{
    PORTB = 1u << 2;
    DDRB = (1u << 1) | (1u << 2) | (1u << 3) | (1u << 5); /* CE, CSN, MOSI, SCK */
    SPCR = (1u << SPE) | (1u << MSTR);                    /* mode 0, most significant bit first, 16 MHz / 4 */
    _delay_ms(100);                                       /* the radio's power-on reset */
}

static uint8_t status_of_radio(void)
{
    uint8_t status;
    radio_select();
    status = radio_exchange(0xFFu); /* NOP: STATUS comes back */
    radio_release();
    return status;
}

/* A board without a terminal: the LED on D8 (PB0) says what happened, so many flashes. */
static void flash(uint8_t times)
{
    DDRB |= 1u << 0;
    for (uint8_t i = 0; i < times; ++i) {
        PORTB |= 1u << 0;
        _delay_ms(150);
        PORTB &= (uint8_t)~(1u << 0);
        _delay_ms(150);
    }
}

#endif
