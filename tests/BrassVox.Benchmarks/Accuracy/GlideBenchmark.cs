using BrassVox.Analysis;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Measures rendered pairs of which one tone glides, as an exercise declares it, from separate to fully coupled.</summary>
/// <remarks>The truth is the path that was rendered; both tones have their small natural unsteadiness, so a few cents are the rendering's.</remarks>
internal static class GlideBenchmark
{
    private const int RateHz = 48000;
    private const double Seconds = 6.0;

    // What is left out at either end: attack, release, and half a window.
    private const double EdgeSeconds = 0.3;
    private const double NearCents = 25.0;
    private const double WrongCents = 150.0;
    private static readonly float[] Couplings = [0f, 0.3f, 0.6f, 0.9f, 1f];

    // In semitones above the held tone: fifth to octave, third to sixth, across the unison, fifth to third, octave to tenth.
    private static readonly (int From, int To)[] Ways = [(7, 12), (4, 9), (2, -2), (7, 3), (12, 15)];

    private static readonly (string Instrument, string Voice, string Held, double LowestHz, double HighestHz)[] Pairs =
    [
        ("tuba", "bass", "Bb1", 80, 330), ("tuba", "bass", "Bb2", 80, 330), ("trombone", "bass", "Bb2", 80, 330),
        ("trombone", "alto", "F3", 160, 700), ("trumpet", "alto", "Bb3", 160, 700),
    ];

    /// <summary>Prints a line for each coupling, and for each glide with --glides; always 0.</summary>
    /// <param name="args">--glides.</param>
    public static int Run(string[] args)
    {
        TonePresets tones = TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones"));
        Console.WriteLine("The voice glides, the played tone holds. Near: both within 25 c; wrong: 150 c off and more; the rest is declined or between.");
        Console.WriteLine("coupling  frames    near  declined   wrong");
        foreach (float coupling in Couplings)
        {
            Count all = default;
            foreach (var pair in Pairs)
            {
                double heldHz = EqualTemperament.FrequencyHz(Pitch.Parse(pair.Held).MidiNumber, 440.0);
                foreach ((int from, int to) in Ways)
                {
                    (double fromHz, double toHz) = (heldHz * Math.Pow(2.0, from / 12.0), heldHz * Math.Pow(2.0, to / 12.0));
                    if (Math.Min(fromHz, toHz) < pair.LowestHz || Math.Max(fromHz, toHz) > pair.HighestHz)
                    {
                        continue;
                    }

                    float[] sound = Render(new FlowPair(tones.BrassById(pair.Instrument), tones.VoiceById(pair.Voice), seed: 3), coupling, heldHz, fromHz, toHz);
                    double middleHz = Math.Sqrt(fromHz * toHz);
                    var prior = new DuetPrior(heldHz, middleHz, SungMoves: true, SungLowestHz: middleHz / Math.Sqrt(2.0), SungHighestHz: middleHz * Math.Sqrt(2.0));
                    Count one = Count.Of(TakeMeasurement.Frames(sound, RateHz, prior), heldHz, fromHz, toHz);
                    all += one;
                    if (args.Contains("--glides"))
                    {
                        Console.WriteLine(FormattableString.Invariant($"  {coupling:0.0} {pair.Instrument} {pair.Held} {from:+0;-0} to {to:+0;-0} st: {one}"));
                    }
                }
            }

            Console.WriteLine(FormattableString.Invariant($"{coupling,8:0.0}  {all}"));
        }

        return 0;
    }

    private static float[] Render(FlowPair pair, float coupling, double heldHz, double fromHz, double toHz)
    {
        float[] sound = new float[(int)(Seconds * RateHz)];
        pair.Prepare(new RenderFormat(RateHz, 1024));
        pair.Parameters.Single(parameter => parameter.Spec.Id == "life").Target = 1f;
        _ = pair.TryPost(PairEvent.Coupling(coupling, 0f));
        _ = pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(heldHz)));
        _ = pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Glide(fromHz, toHz, Seconds)));
        _ = pair.TryPost(PairEvent.Start());
        for (int at = 0; at < sound.Length; at += 1024)
        {
            pair.Render(sound.AsSpan(at, Math.Min(1024, sound.Length - at)));
        }

        return sound;
    }

    private readonly record struct Count(int Frames, int Near, int Declined, int Wrong)
    {
        public static Count Of(IEnumerable<AnalysisFrame> frames, double heldHz, double fromHz, double toHz)
        {
            Count count = default;
            foreach (AnalysisFrame frame in frames.Where(frame => frame.CentreSeconds is > EdgeSeconds and < Seconds - EdgeSeconds))
            {
                double trueHz = fromHz * Math.Pow(toHz / fromHz, frame.CentreSeconds / Seconds);
                double played = Away(frame.Played, heldHz);
                double sung = Away(frame.Sung, trueHz);
                count += new Count(
                    1,
                    frame.Played is not null && frame.Sung is not null && Math.Max(played, sung) < NearCents ? 1 : 0,
                    frame.Sung is null ? 1 : 0,
                    Math.Max(played, sung) > WrongCents ? 1 : 0);
            }

            return count;
        }

        public static Count operator +(Count a, Count b) => new(a.Frames + b.Frames, a.Near + b.Near, a.Declined + b.Declined, a.Wrong + b.Wrong);

        public override string ToString() =>
            FormattableString.Invariant($"{Frames,6}  {(double)Near / Frames,6:0.000}  {(double)Declined / Frames,8:0.000}  {(double)Wrong / Frames,6:0.0000}");

        private static double Away(PitchEstimate? tone, double trueHz) => tone is { } told ? Math.Abs(Cents.Between(trueHz, told.FrequencyHz)) : 0.0;
    }
}
