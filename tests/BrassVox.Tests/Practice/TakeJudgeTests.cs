using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Judging on frames of simulated players whose truth is known. No outside source: the truth is what the player was told to do.</summary>
public sealed class TakeJudgeTests
{
    private const double StartSeconds = 1.0;

    private static SimulatedTone Perfect { get; } = new();

    public static TheoryData<string> PlayAlong() =>
        [.. ShippedExercises.Library.Exercises.Where(exercise => !exercise.IsListening).Select(exercise => exercise.Id)];

    [Theory]
    [MemberData(nameof(PlayAlong))]
    public void A_perfect_player_is_as_asked_at_the_narrowest_grade(string id) =>
        AssertAsAsked(id, PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low));

    /// <summary>Exercise, what the player does wrong, and the fault that has to be named. P or S before the colon.</summary>
    public static TheoryData<string, string, Fault, VoiceRole?> Faults() => new()
    {
        { "open-home-pair", "P offset 40", Fault.Offset, VoiceRole.Played },
        { "open-home-pair", "P offset -40", Fault.Offset, VoiceRole.Played },
        { "open-home-pair", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "open-home-pair", "S offset -40", Fault.Offset, VoiceRole.Sung },
        { "open-home-pair", "P spread 30", Fault.Spread, VoiceRole.Played },
        { "open-home-pair", "S spread 30", Fault.Spread, VoiceRole.Sung },
        { "open-home-pair", "P drift -45", Fault.Drift, VoiceRole.Played },
        { "open-home-pair", "S drift 45", Fault.Drift, VoiceRole.Sung },
        { "open-home-pair", "P late 1.6", Fault.Late, VoiceRole.Played },
        { "open-home-pair", "S late 1.6", Fault.Late, VoiceRole.Sung },
        { "open-home-pair", "P octave -1", Fault.WrongOctave, VoiceRole.Played },
        { "open-home-pair", "S octave -1", Fault.WrongOctave, VoiceRole.Sung },
        { "open-home-pair", "S octave 1", Fault.WrongOctave, VoiceRole.Sung },
        { "open-home-pair", "P silent", Fault.NoTone, VoiceRole.Played },
        { "open-home-pair", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "open-home-pair", "S stops 4", Fault.TooShort, VoiceRole.Sung },
        { "voice-glides-about-the-fifth", "P flinch 30 at 4", Fault.Flinch, VoiceRole.Played },
        { "voice-glides-about-the-fifth", "P flinch -30 at 4", Fault.Flinch, VoiceRole.Played },
        { "voice-glides-about-the-fifth", "P offset 40", Fault.Offset, VoiceRole.Played },
        { "voice-glides-about-the-fifth", "S gap at 3", Fault.Broken, VoiceRole.Sung },
        { "voice-glides-about-the-fifth", "S jump 120 at 4", Fault.Broken, VoiceRole.Sung },
        { "voice-glides-about-the-fifth", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "voice-glides-to-the-octave", "P flinch 30 at 6", Fault.Flinch, VoiceRole.Played },
        { "voice-glides-to-the-octave", "P drift -60", Fault.Flinch, VoiceRole.Played },
        { "voice-glides-to-the-octave", "S gap at 2", Fault.Broken, VoiceRole.Sung },
        { "voice-glides-to-the-octave", "P octave 1", Fault.WrongOctave, VoiceRole.Played },
        { "land-on-the-unison", "S offset 40", Fault.NotLanded, null },
        { "land-on-the-unison", "S offset -40", Fault.NotLanded, null },
        { "land-on-the-unison", "S spread 40", Fault.NotLanded, null },
        { "land-on-the-unison", "P flinch 40 at 7", Fault.Flinch, VoiceRole.Played },
        { "land-on-the-unison", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "sing-through-the-instrument", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "sing-through-the-instrument", "S drift 45", Fault.Drift, VoiceRole.Sung },
        { "sing-through-the-instrument", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "alternate", "P offset 40", Fault.Offset, VoiceRole.Played },
        { "alternate", "P drift -60", Fault.NotReturned, VoiceRole.Played },
        { "alternate", "S drift 60", Fault.NotReturned, VoiceRole.Sung },
        { "overlap", "S silent", Fault.NotTogether, null },
        { "overlap", "P silent", Fault.NotTogether, null },
        { "enter-on-a-held-tone", "P flinch 30 at 5", Fault.Flinch, VoiceRole.Played },
        { "enter-on-a-held-tone", "S flinch -30 at 17", Fault.Flinch, VoiceRole.Sung },
        { "vowels", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "vowels", "P flinch 40 at 5", Fault.Offset, VoiceRole.Played },
        { "long-breath", "S drift -45", Fault.Drift, VoiceRole.Sung },
        { "long-breath", "P spread 30", Fault.Spread, VoiceRole.Played },
        { "long-breath", "S stops 9", Fault.TooShort, VoiceRole.Sung },
        { "voice-crosses", "P flinch 40 at 8", Fault.Flinch, VoiceRole.Played },
        { "voice-crosses", "S gap at 3", Fault.Broken, VoiceRole.Sung },
        { "voice-crosses-in-semitones", "S offset 60", Fault.Offset, VoiceRole.Sung },
        { "voice-crosses-in-semitones", "P flinch 40 at 16", Fault.Flinch, VoiceRole.Played },
        { "choose-the-beats", "S offset 20", Fault.BeatRate, null },
        { "choose-the-beats", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "land-on-the-octave", "S offset 25", Fault.NotLanded, null },
        { "played-tone-bends", "S spread 40", Fault.Spread, VoiceRole.Sung },
        { "played-tone-bends", "S flinch 30 at 4", Fault.Flinch, VoiceRole.Sung },
        { "played-tone-bends", "P gap at 3", Fault.Broken, VoiceRole.Played },
        { "scale-under-the-voice", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "scale-under-the-voice", "P offset 90", Fault.Offset, VoiceRole.Played },
        { "played-tone-crosses", "S flinch 40 at 9", Fault.Flinch, VoiceRole.Sung },
        { "parallel-fifths", "S offset 50", Fault.Interval, null },
        { "contrary-motion", "P offset -50", Fault.Interval, null },
        { "sing-it-back", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "sing-it-back", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "balance", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "balance", "P alike", Fault.Balance, null },
        { "parallel-intervals", "S offset 50", Fault.Interval, null },
        { "twelve-intervals", "S offset 40", Fault.Offset, VoiceRole.Sung },
        { "twelve-intervals", "S silent", Fault.NoTone, VoiceRole.Sung },
        { "passage", "S offset 60", Fault.Offset, null },
        { "passage", "P offset -60", Fault.Offset, null },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_faulty_player_is_told_the_fault(string id, string what, Fault fault, VoiceRole? role)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(id);
        (SimulatedTone played, SimulatedTone sung) = Player(what);
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, played, sung, StartSeconds), StartSeconds);

        Assert.False(result.AsAsked);
        Assert.Contains(result.Findings, finding => finding.Fault == fault && finding.Role == role);
        Finding[] others = [.. result.Findings.Where(finding => finding.Verdict == Verdict.Missed && finding.Role is { } other && role is { } mine && other != mine)];
        Assert.True(others.Length == 0, $"The other tone is blamed: {string.Join("; ", others.Select(other => other.Text))}");
        Assert.NotEqual("", result.Next);
    }

    [Theory]
    [InlineData(7, 3, 0)]
    [InlineData(-12, 8, 20)]
    [InlineData(19, 15, -30)]
    [InlineData(-3, 5, 60)]
    public void Offset_spread_and_drift_are_recovered(double offset, double spread, double drift)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        SimulatedTone tone = new() { OffsetCents = offset, SpreadCents = spread, DriftCents = drift };
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, tone, tone, StartSeconds), StartSeconds);
        foreach (JudgedTone report in new[] { result.Played!, result.Sung! })
        {
            Assert.Equal(offset, report.OffsetCents!.Value, 2.0);
            Assert.InRange(report.SpreadCents!.Value, 0.85 * spread, 1.15 * spread);
            Assert.InRange(report.DriftCents!.Value, drift - Tolerance(drift, spread), drift + Tolerance(drift, spread));
        }

        // 15 per cent; a wander of known spread also tilts the line a little, by at most half its spread here.
        static double Tolerance(double drift, double spread) => Math.Max(0.15 * Math.Abs(drift), 0.5 * spread);
    }

    /// <summary>Long breath asks for no place: the limit is never called asked, and a tone that lies off is named beside "as asked".</summary>
    [Fact]
    public void A_place_that_is_not_asked_for_is_told_without_a_limit_of_the_exercise()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("long-breath");
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, new SimulatedTone(), new SimulatedTone { OffsetCents = -30 }, StartSeconds), StartSeconds);
        Assert.True(result.AsAsked);
        Assert.Contains("the sung tone lay 30 c low", result.Next, StringComparison.Ordinal);
        var said = new Saying(SaidPitch.True, SaidPitch.Low, SaidPair.Beat, SaidLine.Held, Sureness.Certain);
        Assert.Equal("it was low: -30 c, true means within 15", Sayings.Compare(said, result)[1].Measured);

        ResolvedExercise home = ShippedExercises.Resolve("open-home-pair");
        TakeResult asked = TakeJudge.Judge(home, SimulatedPlayer.Frames(home, new SimulatedTone(), new SimulatedTone { OffsetCents = -12 }, StartSeconds), StartSeconds);
        double limit = asked.Findings.First(finding => finding is { Criterion: "offset", Role: VoiceRole.Sung }).Limit!.Value;
        Assert.Equal(FormattableString.Invariant($"it was true: -12 c, asked within {limit:0}"), Sayings.Compare(said, asked)[1].Measured);
        Assert.DoesNotContain("is not asked", asked.Next, StringComparison.Ordinal);
    }

    /// <summary>A line of steady notes does not wander, wherever it leaps; nor does one that comes late, where notes are looked for one by one.</summary>
    [Fact]
    public void Leaps_from_note_to_note_are_no_wander()
    {
        ResolvedExercise steps = ShippedExercises.Resolve("contrary-motion");
        SimulatedTone tone = new() { OffsetCents = 7 };
        TakeResult result = TakeJudge.Judge(steps, SimulatedPlayer.Frames(steps, tone, tone, StartSeconds), StartSeconds - 0.08);
        Assert.InRange(result.Played!.SpreadCents!.Value, 0, 3);
        Assert.Equal(7, result.Sung!.OffsetCents!.Value, 1.0);
        Assert.InRange(result.Sung.SpreadCents!.Value, 0, 3);

        Passage passage = ShippedPassages.Load(ShippedPassages.First, PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low)).Passage!;
        ResolvedExercise turn = PassageExercise.Resolve(passage, PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low), new PassageTurn(1, 4), new TakeOptions());
        TakeResult late = TakeJudge.Judge(turn, SimulatedPlayer.Frames(turn, tone, tone, StartSeconds), StartSeconds - 0.3);
        Assert.Equal(7, late.Played!.OffsetCents!.Value, 1.0);
        Assert.InRange(late.Played.SpreadCents!.Value, 0, 3);
        Assert.InRange(late.Sung!.SpreadCents!.Value, 0, 3);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.137)]
    [InlineData(0.48)]
    public void Onset_is_recovered_within_20_ms(double lateSeconds)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        SimulatedTone tone = new() { LateSeconds = lateSeconds };
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, tone, tone, StartSeconds), StartSeconds);
        Assert.Equal(lateSeconds, result.Played!.OnsetSeconds!.Value, 0.020);
        Assert.Equal(lateSeconds, result.Sung!.OnsetSeconds!.Value, 0.020);
    }

    [Fact]
    public void Vibrato_is_reported_and_is_no_fault()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair", aim: Grade.III);
        TakeResult result = TakeJudge.Judge(
            resolved, SimulatedPlayer.Frames(resolved, Perfect, new() { VibratoCents = 30, VibratoHz = 5.5 }, StartSeconds), StartSeconds);
        Assert.True(result.AsAsked, Missed(result));
        Assert.Equal(0, result.Sung!.OffsetCents!.Value, 3.0);
        Assert.Equal(5.5, result.Sung.VibratoPerSecond!.Value, 0.05 * 5.5);
        Assert.Equal(30, result.Sung.VibratoCents!.Value, 0.05 * 30);
    }

    /// <summary>One beat a second over Bb2, so half of one over Bb1: the same in the exercise's finding, in the figures, in what is said of the player's sentence.</summary>
    [Theory]
    [InlineData("Bb2", "under 1.0 /s")]
    [InlineData("Bb1", "under 0.5 /s")]
    public void What_is_called_still_is_one_figure_everywhere(string played, string means)
    {
        ResolvedExercise resolved = ExerciseResolver.Resolve(
            ShippedExercises.Find("land-on-the-octave"), PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low), new PairChoice(Pitch.Parse(played), Pitch.FromMidi(Pitch.Parse(played).MidiNumber + 12))).Resolved!;
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, Perfect, Perfect, StartSeconds), StartSeconds);
        Finding landing = result.Findings.First(finding => finding.Criterion == "landing");
        Assert.Contains($"({means})", landing.Text, StringComparison.Ordinal);
        Assert.Equal(means, JudgedPair.StillMeans(result.Pair.StillBelowPerSecond));
        SayingCheck pair = Sayings.Compare(new Saying(null, null, SaidPair.Still, SaidLine.Held, default), result).Single(check => check.Said == "the pair stood still");
        Assert.Equal($"it stood still: {means}", pair.Measured);

        // The home pair asks for no landing and means the same.
        ResolvedExercise home = ExerciseResolver.Resolve(
            ShippedExercises.Find("open-home-pair"), PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low), new PairChoice(Pitch.Parse(played), Pitch.FromMidi(Pitch.Parse(played).MidiNumber + 7))).Resolved!;
        Assert.Equal(result.Pair.StillBelowPerSecond, TakeJudge.Judge(home, SimulatedPlayer.Frames(home, Perfect, Perfect, StartSeconds), StartSeconds).Pair.StillBelowPerSecond, 6);
    }

    [Fact]
    public void In_fog_cents_are_not_told_and_beats_are_judged()
    {
        // Tuba, low voice, S on F3 over Bb1: a twelfth, each line of S on a line of P.
        ResolvedExercise resolved = ExerciseResolver.Resolve(
            ShippedExercises.Find("open-home-pair"), PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low),
            new PairChoice(Pitch.Parse("Bb1"), Pitch.Parse("F3"))).Resolved!;
        TakeResult still = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, Perfect, Perfect, StartSeconds), StartSeconds);
        TakeResult high = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, Perfect, new() { OffsetCents = 30 }, StartSeconds), StartSeconds);

        Assert.Null(still.Sung!.OffsetCents);
        Assert.Equal((8.0, 0.0), (still.Sung.HeardSeconds, still.Sung.ToldSeconds!.Value), (one, other) => Math.Abs(one.Item1 - other.Item1) < 0.1 && one.Item2 == other.Item2);
        Assert.Contains("8.0 s of it not told from the other tone", still.Findings.Single(finding => finding is { Criterion: "heard", Role: VoiceRole.Sung }).Text, StringComparison.Ordinal);
        Assert.True(still.AsAsked, Missed(still));
        Finding beats = high.Findings.Single(finding => finding is { Criterion: "offset", Role: VoiceRole.Sung });
        Assert.Equal(Fault.Offset, beats.Fault);
        Assert.Equal("/s", beats.Unit);

        // 30 cents above the twelfth of Bb1: 3 P (2^(30/1200) - 1) = 3.06 beats a second.
        Assert.Equal(3 * resolved.Pair.PlayedHz * (Math.Pow(2, 30.0 / 1200) - 1), beats.Value!.Value, 0.01);
    }

    [Fact]
    public void The_best_second_is_the_one_that_lay_nearest()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        SimulatedTone tone = new() { OffsetCents = 20, FlinchCents = -20, FlinchAtSeconds = 4.0 };
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, tone, tone, StartSeconds), StartSeconds);
        Assert.Equal(4.0, result.BestSecond!.Value.FromSeconds, 0.15);
    }

    [Fact]
    public void Silence_is_told_as_silence()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        SimulatedTone silent = new() { Sounds = false };
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, silent, silent, StartSeconds), StartSeconds);
        Assert.False(result.AsAsked);
        Assert.All(result.Findings.Where(finding => finding.Criterion == "heard"), finding => Assert.Equal(Fault.NoTone, finding.Fault));
        Assert.Null(result.Played!.OffsetCents);
        Assert.Null(result.BestSecond);
    }

    /// <summary>A perfect player's take of one exercise is as asked at the narrowest grade.</summary>
    internal static void AssertAsAsked(string id, PlayerProfile player)
    {
        ResolvedExercise resolved = ExerciseResolver.Resolve(ShippedExercises.Find(id), player with { Aim = Grade.III }).Resolved!;
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, Perfect, Perfect, StartSeconds), StartSeconds);
        Assert.True(result.AsAsked, $"{id}, {player.Instrument}, {player.Voice}: {Missed(result)}");
        Assert.Equal(Grade.III, result.Reached);
    }

    private static string Missed(TakeResult result) =>
        string.Join("; ", result.Findings.Where(finding => finding.Verdict != Verdict.Met).Select(finding => $"{finding.StepId} {finding.Criterion}: {finding.Text}"));

    private static (SimulatedTone Played, SimulatedTone Sung) Player(string what)
    {
        string[] words = what.Split(' ');
        double Number(int index) => double.Parse(words[index], System.Globalization.CultureInfo.InvariantCulture);
        SimulatedTone tone = words[1] switch
        {
            "offset" => new() { OffsetCents = Number(2) },
            "spread" => new() { SpreadCents = Number(2) },
            "drift" => new() { DriftCents = Number(2) },
            "late" => new() { LateSeconds = Number(2) },
            "octave" => new() { OffsetCents = 1200 * Number(2) },
            "flinch" => new() { FlinchCents = Number(2), FlinchAtSeconds = Number(4) },
            "gap" => new() { GapAtSeconds = Number(3) },
            "jump" => new() { JumpCents = Number(2), JumpAtSeconds = Number(4) },
            "alike" => new() { GrowsByDb = 0 },
            "stops" => new() { StopsAtSeconds = Number(2) },
            _ => new() { Sounds = false },
        };
        return words[0] == "P" ? (tone, Perfect) : (Perfect, tone);
    }
}
