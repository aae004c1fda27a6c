namespace RadioLint.Tests.Emulation;

/// <summary>A program of the tests' own around a node's emitted header: hooks, configure, verify, and one packet.</summary>
public static class NodeProgram
{
    public const byte Started = 1;
    public const byte Configured = 2;
    public const byte Verified = 3;
    public const byte Sent = 4;
    public const byte Received = 5;

    /// <summary>A program that sends, or waits for a packet; it reports what it received, byte by byte, as marks from 0x80 on in nibbles.</summary>
    /// <param name="node">The node's identifier: `far`.</param>
    /// <param name="packet">What it sends; null for a receiver.</param>
    /// <param name="answer">What a receiver returns in its acknowledgement, on pipe 1; null for nothing.</param>
    public static string Of(string node, byte[]? packet, byte[]? answer)
    {
        var upper = node.ToUpperInvariant();
        return $$"""
            #include <avr/interrupt.h>
            #include <avr/io.h>
            #include <avr/sleep.h>
            #include <util/delay.h>
            #include "{{node}}_radio.h"

            void radio_select(void) { {{upper}}_PIN_CSN_OUTPUT &= (uint8_t)~(1u << {{upper}}_PIN_CSN_BIT); }
            void radio_release(void) { {{upper}}_PIN_CSN_OUTPUT |= (uint8_t)(1u << {{upper}}_PIN_CSN_BIT); }
            uint8_t radio_exchange(uint8_t out) { SPDR = out; while ((SPSR & (1u << SPIF)) == 0u) { } return SPDR; }
            void radio_ce_level(uint8_t high)
            {
                if (high != 0u)
                    {{upper}}_PIN_CE_OUTPUT |= (uint8_t)(1u << {{upper}}_PIN_CE_BIT);
                else
                    {{upper}}_PIN_CE_OUTPUT &= (uint8_t)~(1u << {{upper}}_PIN_CE_BIT);
            }
            void radio_wait_us(uint16_t us) { while (us-- != 0u) _delay_us(1); }

            static uint8_t status(void) { uint8_t now; radio_select(); now = radio_exchange(0xFFu); radio_release(); return now; }

            static void report(uint8_t byte) { GPIOR0 = (uint8_t)(0x80u | (byte >> 4)); GPIOR0 = (uint8_t)(0x90u | (byte & 15u)); }

            static void fetch(void)
            {
                uint8_t count, i;
                radio_select(); (void)radio_exchange(0x60u); count = radio_exchange(0xFFu); radio_release();
                report(count);
                radio_select(); (void)radio_exchange(0x61u);
                for (i = 0u; i < count && i < 32u; i++)
                    report(radio_exchange(0xFFu));
                radio_release();
            }

            int main(void)
            {
                uint16_t left;
                {{upper}}_PIN_CSN_OUTPUT |= (uint8_t)(1u << {{upper}}_PIN_CSN_BIT);
                {{upper}}_PIN_CSN_DIRECTION |= (uint8_t)(1u << {{upper}}_PIN_CSN_BIT);
                {{upper}}_PIN_CE_DIRECTION |= (uint8_t)(1u << {{upper}}_PIN_CE_BIT);
                {{upper}}_PIN_SCK_DIRECTION |= (uint8_t)(1u << {{upper}}_PIN_SCK_BIT);
                {{upper}}_PIN_MOSI_DIRECTION |= (uint8_t)(1u << {{upper}}_PIN_MOSI_BIT);
            #if defined(__AVR_ATmega328P__)
                DDRB |= 1u << 2; /* SS stays an output, or the unit leaves master mode */
            #else
                DDRB |= 1u << 0;
            #endif
                SPCR = (1u << SPE) | (1u << MSTR);
                GPIOR0 = {{Started}}u;
                {{node}}_configure();
                GPIOR0 = {{Configured}}u;
                GPIOR1 = {{node}}_verify();
                GPIOR0 = {{Verified}}u;
            {{(packet is null ? Receive(node, answer) : Send(packet))}}
                cli();
                sleep_mode();
                return 0;
            }
            """;
    }

    private static string Send(byte[] packet) => $$"""
            {
                static const uint8_t bytes[] = { {{Bytes(packet)}} };
                uint8_t i;
                radio_wait_us(20000u);
                radio_select(); (void)radio_exchange(0xA0u);
                for (i = 0u; i < sizeof bytes; i++)
                    (void)radio_exchange(bytes[i]);
                radio_release();
                radio_ce_level(1u); radio_wait_us(RADIO_CE_PULSE_US); radio_ce_level(0u);
                for (left = 60000u; left != 0u && (status() & 0x30u) == 0u; left--)
                    radio_wait_us(5u);
                GPIOR2 = status();
                GPIOR0 = {{Sent}}u;
                if ((status() & 0x40u) != 0u)
                    fetch();
            }
        """;

    private static string Receive(string node, byte[]? answer) => $$"""
            {{(answer is null ? "" : $$"""
            {
                static const uint8_t bytes[] = { {{Bytes(answer)}} };
                uint8_t i;
                radio_select(); (void)radio_exchange(0xA9u);
                for (i = 0u; i < sizeof bytes; i++)
                    (void)radio_exchange(bytes[i]);
                radio_release();
            }
            """)}}
            {{node}}_listen();
            radio_wait_us(RADIO_CE_TO_CSN_US);
            for (left = 20000u; left != 0u && (status() & 0x40u) == 0u; left--)
                radio_wait_us(5u);
            GPIOR2 = status();
            GPIOR0 = {{Received}}u;
            if ((status() & 0x40u) != 0u)
                fetch();
            radio_wait_us(5000u); /* the acknowledgement goes out meanwhile */
        """;

    private static string Bytes(byte[] bytes) => string.Join(", ", bytes.Select(one => $"0x{one:X2}u"));
}
