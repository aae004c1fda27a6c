/* Runs the programs of several AVRs side by side and tells of every SPI byte, pin and mark on standard output; the answer to an SPI byte comes from
   standard input. One process a scenario, so that a program that takes the emulator down takes one test down. Links against libsimavr 1.6. */
#include <simavr/avr_ioport.h>
#include <simavr/avr_spi.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_CORES = 4, SPI_BYTE = 1, SPI_SETUP = 2, PORT = 3, MARK = 4, RESULT = 5, STOPPED = 6 };
enum { SPCR = 0x4C, SPSR = 0x4D, SPDR = 0x4E, GPIOR0 = 0x3E, GPIOR1 = 0x4A, GPIOR2 = 0x4B };

struct core {
    avr_t *avr;
    uint8_t number;
    uint16_t setup;
    int stopped;
};

struct port {
    struct core *core;
    uint8_t letter;
};

static struct core cores[MOST_CORES];

static void tell(const struct core *core, uint8_t kind, uint16_t value)
{
    uint8_t event[12] = {core->number, kind, (uint8_t)value, (uint8_t)(value >> 8)};
    uint64_t cycle = core->avr->cycle;
    for (int i = 0; i < 8; i++)
        event[4 + i] = (uint8_t)(cycle >> (8 * i));
    fwrite(event, 1, sizeof event, stdout);
}

static void on_spi(struct avr_irq_t *irq, uint32_t value, void *param)
{
    struct core *core = param;
    uint16_t setup = (uint16_t)(core->avr->data[SPCR] | ((core->avr->data[SPSR] & 1) << 8));
    (void)irq;
    if (setup != core->setup) {
        core->setup = setup;
        tell(core, SPI_SETUP, setup);
    }
    tell(core, SPI_BYTE, (uint16_t)(value & 0xFF));
    fflush(stdout);
    int answer = getchar();
    if (answer == EOF)
        exit(3);
    avr_raise_irq(avr_io_getirq(core->avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_INPUT), (uint32_t)answer);
}

/* The library gives every byte 100 us; here it takes the eight bits that SPCR and SPI2X say. */
static void on_spdr(struct avr_t *avr, avr_io_addr_t addr, uint8_t v, void *param)
{
    static const uint8_t shift[4] = {2, 4, 6, 7};
    avr_io_t *io = avr->io_port;
    (void)addr;
    (void)v;
    (void)param;
    while (io && strcmp(io->kind, "spi") != 0)
        io = io->next;
    for (avr_cycle_timer_slot_p slot = avr->cycle_timers.timer; slot; slot = slot->next)
        if (slot->param == io) {
            avr_cycle_timer_register(avr, 8u << (shift[avr->data[SPCR] & 3] - (avr->data[SPSR] & 1)), slot->timer, slot->param);
            return;
        }
}

static void on_port(struct avr_irq_t *irq, uint32_t value, void *param)
{
    struct port *port = param;
    (void)irq;
    tell(port->core, PORT, (uint16_t)((uint16_t)(port->letter - 'A') << 8 | (value & 0xFF)));
}

static void on_mark(struct avr_t *avr, avr_io_addr_t addr, uint8_t v, void *param)
{
    avr->data[addr] = v;
    tell(param, MARK, v);
}

static void no_sleep(avr_t *avr, avr_cycle_count_t count)
{
    (void)avr;
    (void)count;
}

static void no_log(avr_t *avr, const int level, const char *format, va_list args)
{
    (void)avr;
    (void)level;
    (void)format;
    (void)args;
}

static avr_cycle_count_t idle(avr_t *avr, avr_cycle_count_t when, void *param)
{
    (void)avr;
    (void)param;
    return when + 16;
}

static void begin(struct core *core, const char *mcu, uint32_t hertz, const char *file)
{
    elf_firmware_t firmware;
    memset(&firmware, 0, sizeof firmware);
    if (elf_read_firmware(file, &firmware) != 0)
        exit(4);
    core->avr = avr_make_mcu_by_name(mcu);
    if (core->avr == NULL)
        exit(5);
    avr_init(core->avr);
    core->avr->frequency = hertz;
    avr_load_firmware(core->avr, &firmware);
    core->avr->frequency = hertz;
    core->avr->sleep = no_sleep;
    avr_cycle_timer_register(core->avr, 16, idle, NULL);
    avr_irq_register_notify(avr_io_getirq(core->avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_OUTPUT), on_spi, core);
    avr_register_io_write(core->avr, SPDR, on_spdr, NULL);
    avr_register_io_write(core->avr, GPIOR0, on_mark, core);
    for (uint8_t letter = 'A'; letter <= 'L'; letter++) {
        avr_irq_t *irq = avr_io_getirq(core->avr, AVR_IOCTL_IOPORT_GETIRQ((uint32_t)letter), IOPORT_IRQ_PIN_ALL);
        if (irq != NULL) {
            struct port *port = malloc(sizeof *port);
            port->core = core;
            port->letter = letter;
            avr_irq_register_notify(irq, on_port, port);
        }
    }
}

int main(int argc, char **argv)
{
    int count = (argc - 2) / 3;
    uint64_t limit = argc > 1 ? strtoull(argv[1], NULL, 10) : 0;
    if (count < 1 || count > MOST_CORES)
        return 2;
    avr_global_logger_set(no_log);
    for (int i = 0; i < count; i++) {
        cores[i].number = (uint8_t)i;
        cores[i].setup = 0xFFFF;
        begin(&cores[i], argv[2 + 3 * i], (uint32_t)strtoul(argv[3 + 3 * i], NULL, 10), argv[4 + 3 * i]);
    }
    for (;;) {
        /* The core that is furthest behind goes next, so that all stay within a few cycles. */
        struct core *next = NULL;
        for (int i = 0; i < count; i++)
            if (!cores[i].stopped && (next == NULL || cores[i].avr->cycle < next->avr->cycle))
                next = &cores[i];
        if (next == NULL || next->avr->cycle > limit)
            break;
        int state = avr_run(next->avr);
        if (state == cpu_Done || state == cpu_Crashed) {
            next->stopped = 1;
            tell(next, RESULT, (uint16_t)(next->avr->data[GPIOR1] | next->avr->data[GPIOR2] << 8));
            tell(next, STOPPED, (uint16_t)state);
        }
    }
    fflush(stdout);
    return 0;
}
