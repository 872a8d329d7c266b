using System.Collections.Concurrent;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using BrassVox.Tests.Support;
using BrassVox.Theory;

namespace BrassVox.Tests.Synthesis;

/// <summary>The one list of sound sources: whatever the program can sound stands here and passes the contract suite.</summary>
/// <param name="Name">Name in test output.</param>
/// <param name="Make">Makes one, not yet prepared.</param>
/// <param name="Begin">Sets it sounding; called after each Prepare and Reset.</param>
public sealed record SourceUnderTest(string Name, Func<ISoundSource> Make, Action<ISoundSource> Begin)
{
    public static TonePresets Presets { get; } = TonePresets.Load(Path.Combine(Repository.Root, "presets", "tones"));

    public static IReadOnlyList<SourceUnderTest> All { get; } =
    [
        Pair("flow pair, separate", 0, "tuba", "bass"),
        Pair("flow pair, coupled", 0.6f, "tuba", "bass"),
        Pair("flow pair, trumpet and soprano", 1, "trumpet", "soprano"),
        Living("living pair, separate", 0, "tuba", "bass"),
        Living("living pair, coupled", 1, "trombone", "tenor"),
    ];

    /// <summary>Instruments of the living system by id.</summary>
    public static IReadOnlyDictionary<string, BrassBore> Bores { get; } =
        BrassBore.LoadAll(Path.Combine(Repository.Root, "presets", "bores")).ToDictionary(bore => bore.Id, StringComparer.Ordinal);

    /// <summary>Modes of their columns; each is found once.</summary>
    internal static ColumnMode[] ModesOf(string bore) => ModesById.GetOrAdd(bore, id => new Lazy<ColumnMode[]>(Bores[id].FindModes)).Value;

    /// <summary>A pair that glides, mutes and couples on the way, so that the suite sees all of it.</summary>
    public static void BeginPair(ISoundSource source)
    {
        var pair = (IPairEngine)source;
        Assert(pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Glide(116.5409, 130.8128, 0.7))));
        Assert(pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(174.6141))));
        Assert(pair.TryPost(PairEvent.Start(37)));
        Assert(pair.TryPost(PairEvent.Gain(2, -80, 0.1f, 9001)));
        Assert(pair.TryPost(PairEvent.Gain(0, -6, 0.1f, 12345)));
        Assert(pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(196), 15111)));
    }

    public override string ToString() => Name;

    private static ConcurrentDictionary<string, Lazy<ColumnMode[]>> ModesById { get; } = new(StringComparer.Ordinal);

    private static SourceUnderTest Pair(string name, float depth, string brass, string voice) =>
        new(name, () => MakeFlow(depth, brass, voice), BeginPair);

    private static SourceUnderTest Living(string name, float depth, string bore, string voice) =>
        new(name, () => MakeLiving(depth, bore, voice), BeginPair);

    private static LivingPair MakeLiving(float depth, string bore, string voice)
    {
        LivingPair pair = new(Bores[bore], Presets.VoiceById(voice), 7, ModesOf(bore));
        pair.CouplingDepth.Target = depth;
        return pair;
    }

    private static FlowPair MakeFlow(float depth, string brass, string voice)
    {
        FlowPair pair = new(Presets.BrassById(brass), Presets.VoiceById(voice), 7);
        pair.CouplingDepth.Target = depth;
        return pair;
    }

    private static void Assert(bool posted)
    {
        if (!posted)
        {
            throw new InvalidOperationException("the event queue was full");
        }
    }
}
