using RadioLint.CodeFixes;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Fixes;

/// <summary>Where the result would not be certain, nothing is offered.</summary>
public sealed class LeftAloneTests
{
    // Turns left early would not count, `finally` cannot be left, and a lambda may have to return something.
    [Fact]
    public Task A_check_that_would_turn_for_ever_or_not_compile() => FixTest<CheckBeforeUse>.Leaves(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static int Sum(byte[][] packets)
            {
                var (sum, i) = (0, 0);
                while (i < packets.Length)
                {
                    {|RL9010:LarkfieldApiary.Payloads.Order.TryRead(packets[i], out var order)|};
                    sum += order.Sequence;
                    i++;
                }
                bool isMore;
                do
                {
                    {|RL9010:LarkfieldApiary.Payloads.Order.TryRead(packets[0], out var order)|};
                    isMore = order.Sequence > 3;
                }
                while (isMore);
                return sum;
            }

            static void Last(byte[] packet)
            {
                try
                {
                    Console.WriteLine();
                }
                finally
                {
                    {|RL9010:LarkfieldApiary.Payloads.Order.TryRead(packet, out var order)|};
                    Console.WriteLine(order.Sequence);
                }
                Action<byte[]> show = bytes =>
                {
                    {|RL9010:LarkfieldApiary.Payloads.Order.TryRead(bytes, out var order)|};
                    Console.WriteLine(order.Sequence);
                };
                show(packet);
            }
        }
        """);

    // What a lambda uses may be used after the block; a field lives longer than any block.
    [Fact]
    public Task A_device_that_may_be_used_later() => FixTest<GiveBack>.Leaves(
        """
        namespace Larkfield.Host;

        class Office
        {
            private readonly GpioController own = {|RL9015:new()|};

            public Action Start(SpiDevice device)
            {
                device.ApplyImage(LarkfieldApiary.Nodes.Office.Image);
                var pins = {|RL9015:new GpioController()|};
                GpioController? late = null;
                var opening = Task.Run(() => late = {|RL9015:new GpioController()|});
                opening.Wait();
                own.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber);
                late?.OpenPin(4);
                return () => pins.OpenPin(LarkfieldApiary.Nodes.Office.Pins.CeNumber);
            }
        }
        """);

    // Two tokens; a value that is returned only for ever; a lambda that may not see the token.
    [Fact]
    public Task A_loop_whose_token_or_end_is_not_certain() => FixTest<LetItEnd>.Leaves(
        """
        namespace Larkfield.Host;

        static class Log
        {
            static void Follow(Func<byte[]> next, CancellationToken stop, CancellationToken other)
            {
                {|RL9019:while|} (true)
                    new ReportReader(next(), true).TryRead(out _);
            }

            static int Count(Func<byte[]> next, CancellationToken stop)
            {
                {|RL9019:while|} (true)
                    new ReportReader(next(), true).TryRead(out _);
            }

            static void Start(Func<byte[]> next, CancellationToken stop) => Run(static next =>
            {
                {|RL9019:while|} (true)
                    new ReportReader(next(), true).TryRead(out _);
            });

            static void Run(Action<Func<byte[]>> what) => what(() => []);
        }
        """);

    [Theory]
    [InlineData("own.Weight = 4;")]
    [InlineData("Console.WriteLine(own.Humidity);")]
    [InlineData("Console.WriteLine(own.ToString());")]
    [InlineData("ref var weight = ref own.Weight;")]
    public Task A_struct_of_which_the_generated_one_has_less(string use) => FixTest<UseGenerated>.Leaves(
        """
        namespace Larkfield.Host;

        static class Log
        {
            private struct OwnReading { public int Weight; public short Temperature; public ushort Humidity; public byte Sequence; }

            static void Read(ReceivedReport got)
            {
                Span<byte> room = stackalloc byte[32];
                var bytes = got.Packet.CopyTo(room);
                if (bytes.Length < 12)
                    return;
                var own = {|RL9006:MemoryMarshal.Read<OwnReading>(bytes)|};
                HERE
            }
        }
        """.Replace("HERE", use, StringComparison.Ordinal));

    // An older IDE has older libraries: beyond the compiler's and its workspaces nothing may be asked for.
    [Fact]
    public void Nothing_is_needed_that_an_IDE_of_the_oldest_compiler_has_not() => Assert.All(
        typeof(HostFix).Assembly.GetReferencedAssemblies(),
        one => Assert.True(one.Name switch
        {
            "netstandard" => one.Version == new Version(2, 0, 0, 0),
            "RadioLint.Core" => true,
            "System.Memory" => one.Version <= new Version(4, 0, 1, 2),
            "System.Collections.Immutable" => one.Version <= new Version(7, 0, 0, 0),
            _ => one.Name!.StartsWith("Microsoft.CodeAnalysis", StringComparison.Ordinal) && one.Version == new Version(4, 8, 0, 0),
        }, one.FullName));
}
