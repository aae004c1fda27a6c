using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>
/// What a plan costs, in points: one is a millionth of what losing every packet of a link at the first try would be. Whole numbers only, so that equal plans cost the same on
/// every machine. docs/fill-cost.md gives each part's reason and source.
/// </summary>
internal static class PlanCost
{
    /// <summary>A channel that the survey did not listen to: taken as busy a tenth of the time.</summary>
    public const long Unmeasured = 100_000;

    /// <summary>Inside a declared neighbour: only a written channel can be.</summary>
    public const long InsideNeighbour = 200_000;

    /// <summary>Where nothing is declared and nothing measured: on one of the three Wi-Fi channels that most sites use.</summary>
    public const long UsualWifi = 20_000;

    /// <summary>Likewise on a channel on which Bluetooth LE devices announce themselves.</summary>
    public const long UsualAdvertising = 5_000;

    /// <summary>On a multiple of the crystal's frequency, where receivers hear a little less.</summary>
    public const long ClockMultiple = 1_000;

    /// <summary>Another channel than the plan in the field has: every node is to be flashed again, and some are deaf meanwhile.</summary>
    public const long OtherThanInTheField = 20_000;

    /// <summary>The signal comes closer to what a receiver stands than 10 dB.</summary>
    public const long TooStrong = 500_000;

    /// <summary>Above the law's average, in a window of its length.</summary>
    public const long AverageExceeded = 150_000;

    /// <summary>One direction of a link is 10 dB weaker than the other, and the weaker lacks margin.</summary>
    public const long WeakerReturn = 50_000;

    /// <summary>Two senders of one receiver that repeat in step, besides how often their packets meet.</summary>
    public const long SameClass = 1_000;

    /// <summary>Besides, where both are of one group: they report on one beat.</summary>
    public const long SameGroup = 200;

    /// <summary>A pipe that several senders share, for each pair of them.</summary>
    public const long SharedPipe = 500;

    private const decimal NearPerSquareMegahertz = 400;
    private const long PerDecibel = 100;
    private const long PerRetryStep = 10;
    private const long MostCharge = 5_000;

    private static readonly Frequency Near = Frequency.FromMegahertz(5);

    /// <summary>Beside a declared neighbour: outside its rectangle is not silence, up to 5 MHz from its edge.</summary>
    public static long Beside(Frequency gap) => 
        gap >= Near ? 0 : (long)decimal.Round(NearPerSquareMegahertz * ((Near - gap).Hertz / 1_000_000m) * ((Near - gap).Hertz / 1_000_000m));

    /// <summary>The share of places where fading takes more than what is left, 1 - e^(-1/M) (PROP-14 of the worked examples), and a point for each 0.01 dB missing; nothing from the wanted margin on.</summary>
    public static long Shortage(Gain margin, Gain wanted) => margin >= wanted ? 0 : Fading.Outage(margin).Millionths + (wanted - margin).Centi;

    /// <summary>Beside an interferer of known distance, which is taken to send a tenth of the time: the share of places where fading takes more than what is left above it.</summary>
    public static long Disturbed(Gain aboveFloor) => Fading.Outage(aboveFloor).Millionths / 10;

    /// <summary>Power above the least step: it reaches everybody else too.</summary>
    public static long Power(PowerLevel step, PowerLevel least) => (step - least).Centi * PerDecibel / 100;

    /// <summary>Mean current of sending from a battery, a point for each 10 nA while it is small, 5,000 in all: less than the least shortage.</summary>
    public static long Charge(long nanoamperes)
    {
        var points = Math.Min(nanoamperes, 1_000_000_000_000) / 10;
        return MostCharge * points / (MostCharge + points);
    }

    /// <summary>Waiting longer than an acknowledgement needs.</summary>
    public static long Waiting(Duration delay, Duration least) => delay <= least ? 0 : (delay - least).Nanoseconds * PerRetryStep / Radio.OnAir.RetryStep.Nanoseconds;

    /// <summary>A pipe for a sender. Pipe 0 has an address of its own, and a node that sends needs it for its acknowledgements.</summary>
    public static long Pipe(int number, bool receiverSends) => number > 0 ? 0 : receiverSends ? 2_000 : 50;

    /// <summary>The time that the links keep the air busy, and what they lose to each other at the first try.</summary>
    public static long Traffic(Share load, bool hasCompany) => load.Millionths + (hasCompany ? Contention.FirstTryLoss(load).Millionths : 0);

    /// <summary>The whole: the parts of docs/fill-cost.md added up for one choice of everything.</summary>
    public static long Of(Question question, Answer answer)
    {
        var at = question.At(answer.Rate);
        return at.Traffic + at.ChannelCost(answer.Channel) + at.Powers(answer.Channel).Cost(answer.Steps) + at.Repeats.Cost(answer.Delays) + question.Pipes.Cost(answer.Pipes);
    }
}

/// <summary>One choice of everything that is open.</summary>
/// <param name="Rate">Null where no rate is open.</param>
/// <param name="Channel">Null where no channel is open.</param>
/// <param name="Steps">By variable of <see cref="PowerTable"/>, an index into its steps.</param>
/// <param name="Delays">By sender of <see cref="RepeatTable"/>, an index into its delays.</param>
/// <param name="Pipes">By claim of <see cref="PipeTable"/>, the pipe's number.</param>
internal sealed record Answer(Model.DataRate? Rate, int? Channel, int[] Steps, int[] Delays, int[] Pipes);
