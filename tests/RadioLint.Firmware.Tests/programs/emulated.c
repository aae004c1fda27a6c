/* One program on an emulated AVR (libsimavr), the chip of fake_chip.h on its SPI unit, its serial port on standard output, an order on its
   serial input after the first second. The SPI unit's mode, order and speed are looked at with every byte.
   Arguments: file part hertz CSN-port CSN-bit CE-port CE-bit serial seconds fresh|gone kHz-of-SCK order. CE-port `-` is CE tied high. */
#include <simavr/avr_ioport.h>
#include <simavr/avr_spi.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>
#include <simavr/sim_time.h>
#include <stdlib.h>

#include "fake_chip.h"

/* Data addresses of the SPI registers, the same on all parts here. */
enum { SPCR = 0x4C, SPSR = 0x4D, SPDR = 0x4E };

static avr_t *avr;
static avr_irq_t *miso;
static int csn_bit, ce_bit, csn_port, ce_port, csn_is = -1, khz, wrong_spi;

static int divider(void)
{
    static const int by[4] = { 4, 16, 64, 128 };
    return by[avr->data[SPCR] & 3] / ((avr->data[SPSR] & 1) ? 2 : 1);
}

static void catch_up(void)
{
    const double now = 100000.0 + (double)avr->cycle * 1e6 / avr->frequency;
    if (now > chip.now)
        passes(now - chip.now);
}

/* A pin that is no output moves nothing. */
static int drives(int port, int bit)
{
    avr_ioport_state_t state;
    avr_ioctl(avr, AVR_IOCTL_IOPORT_GETSTATE(port), &state);
    return (int)(state.ddr >> bit) & 1;
}

static void on_port(struct avr_irq_t *irq, uint32_t value, void *param)
{
    const int port = (int)(long)param;
    (void)irq;
    catch_up();
    if (port == csn_port && drives(port, csn_bit) && ((int)(value >> csn_bit) & 1) != csn_is) {
        const int was = csn_is;
        csn_is = (int)(value >> csn_bit) & 1;
        if (csn_is == 0)
            radio_select();
        else if (was == 0)
            radio_release();
    }
    if (port == ce_port && drives(port, ce_bit))
        radio_ce_level((uint8_t)((value >> ce_bit) & 1));
}

static void on_spi(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq;
    (void)param;
    catch_up();
    /* On, master, most significant bit first, mode 0, no interrupt; the planned clock. */
    if ((avr->data[SPCR] & 0xFC) != 0x50 || avr->frequency / (uint32_t)divider() != (uint32_t)khz * 1000u)
        ++wrong_spi;
    avr_raise_irq(miso, chip.selected ? radio_exchange((uint8_t)value) : 0xFFu);
}

/* The library lets every byte take 100 us: here it takes what the clock says. */
static void on_spdr(avr_t *core, avr_io_addr_t address, uint8_t value, void *param)
{
    avr_io_t *io = core->io_port;
    avr_cycle_timer_slot_p slot;
    (void)address;
    (void)value;
    (void)param;
    while (io && strcmp(io->kind, "spi"))
        io = io->next;
    for (slot = core->cycle_timers.timer; slot; slot = slot->next) {
        if (slot->param == io) {
            avr_cycle_timer_register(core, (avr_cycle_count_t)(8 * divider()), slot->timer, slot->param);
            return;
        }
    }
}

static void on_serial(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq;
    (void)param;
    putchar((int)value);
}

static void quiet(avr_t *core, const int level, const char *format, va_list arguments)
{
    (void)core;
    (void)level;
    (void)format;
    (void)arguments;
}

int main(int count, char **argument)
{
    static const uint8_t bytes[9] = { 0xDE, 0xAD, 0xBE, 0xEF, 0x01, 0x23, 0x45, 0x67, 0x89 };
    elf_firmware_t firmware;
    avr_cycle_count_t next, end;
    avr_irq_t *serial_in;
    const char *order;
    uint32_t flags = 0;
    int i;
    if (count != 13)
        return 9;
    memset(&firmware, 0, sizeof firmware);
    avr_global_logger_set(quiet); /* else it speaks on standard output */
    if (elf_read_firmware(argument[1], &firmware) != 0)
        return 9;
    strcpy(firmware.mmcu, argument[2]);
    firmware.frequency = (uint32_t)atol(argument[3]);
    avr = avr_make_mcu_by_name(argument[2]);
    avr_init(avr);
    avr_load_firmware(avr, &firmware);
    avr->frequency = firmware.frequency;
    csn_port = argument[4][0];
    csn_bit = atoi(argument[5]);
    ce_port = argument[6][0];
    ce_bit = atoi(argument[7]);
    khz = atoi(argument[11]);
    order = argument[12];

    new_chip();
    chip.registers[0][0] = 0x0Fu; /* as an earlier program left it */
    chip.floating = strcmp(argument[10], "gone") == 0;
    chip.tied = chip.ce = ce_port == '-';
    chip.peer_takes_attempt = 2;
    for (i = 0; i < 126; ++i)
        chip.busy[i] = (uint8_t)(i % 25 == 3);

    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(csn_port), IOPORT_IRQ_PIN_ALL), on_port, (void *)(long)csn_port);
    if (ce_port != '-' && ce_port != csn_port)
        avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ(ce_port), IOPORT_IRQ_PIN_ALL), on_port, (void *)(long)ce_port);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_OUTPUT), on_spi, NULL);
    miso = avr_io_getirq(avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_INPUT);
    avr_register_io_write(avr, SPDR, on_spdr, NULL);
    avr_ioctl(avr, AVR_IOCTL_UART_GET_FLAGS(argument[8][0]), &flags);
    flags &= ~(uint32_t)AVR_UART_FLAG_STDIO;
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS(argument[8][0]), &flags);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ(argument[8][0]), UART_IRQ_OUTPUT), on_serial, NULL);
    serial_in = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ(argument[8][0]), UART_IRQ_INPUT);

    end = (avr_cycle_count_t)atoi(argument[9]) * avr->frequency;
    next = avr->frequency;
    for (i = 1; avr->cycle < end; ) {
        const int state = avr_run(avr);
        if (state == cpu_Done || state == cpu_Crashed) {
            fprintf(stderr, "the core stopped in state %d\n", state);
            return 8;
        }
        if (avr->cycle >= next) {
            /* A letter each millisecond; a packet each half second. */
            next += avr->frequency / 1000;
            catch_up();
            if (*order)
                avr_raise_irq(serial_in, (uint8_t)*order++);
            if (++i % 500 == 0)
                (void)arrives(1 + i / 500 % 3, bytes, 9);
        }
    }
    fflush(stdout);
    if (chip.violations || wrong_spi || chip.spi_bytes == 0)
        fprintf(stderr, "%d forbidden: %s; %d bytes with a wrong SPI; %d bytes in all\n", chip.violations, chip.first_violation, wrong_spi, chip.spi_bytes);
    return chip.violations || wrong_spi || chip.spi_bytes == 0;
}
