using System.CommandLine;
using System.Globalization;
using BrassVox.Audio.Wav;
using BrassVox.Publishing;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox render PLAYED SUNG --output pair.wav</c>: a pair as a sound file.</summary>
internal static class RenderCommand
{
    private const double RampSeconds = 0.06;

    public static Command Build(Func<TonePresets> loadTones, Func<IReadOnlyList<BrassBore>> loadBores)
    {
        RenderArguments from = new();
        Command command = new("render", "Write the sound of a played and a sung note, separate or coupled, to a WAV file");
        from.AddTo(command);
        command.SetAction(arguments => Run(from.Read(arguments), loadTones, loadBores));
        return command;
    }

    private static int Run(RenderOrder order, Func<TonePresets> loadTones, Func<IReadOnlyList<BrassBore>> loadBores)
    {
        TonePresets tones = loadTones();
        if (tones.Voices.FirstOrDefault(preset => Is(preset.Id, order.Voice)) is not { } voice)
        {
            return Failure.Say(ExitCode.BadCommandLine, $"--voice: there is no \"{order.Voice}\"; there are {string.Join(", ", tones.Voices.Select(preset => preset.Id))}.");
        }

        if (order.IsLiving && (order.WithStems || order.Only.Count > 0 || order.Mute.Count > 0))
        {
            return Failure.Say(ExitCode.BadCommandLine, "--living has one column of air: it knows no --stems, --only or --mute. Leave them out, or --living.");
        }

        IPairEngine? pair = order.IsLiving
            ? loadBores().FirstOrDefault(bore => Is(bore.Id, order.Instrument)) is { } bore ? new LivingPair(bore, voice, order.Seed) : null
            : tones.Brass.FirstOrDefault(preset => Is(preset.Id, order.Instrument)) is { } brass ? new FlowPair(brass, voice, order.Seed) : null;
        if (pair is null)
        {
            return Failure.Say(ExitCode.BadCommandLine, $"--instrument: there is no \"{order.Instrument}\"; there are {string.Join(", ", tones.Brass.Select(preset => preset.Id))}.");
        }

        if (order.Only.Concat(order.Mute).FirstOrDefault(name => !pair.Parts.Any(part => Is(part.Name, name))) is { } unknown)
        {
            return Failure.Say(ExitCode.BadCommandLine, $"there is no part \"{unknown}\"; there are {string.Join(", ", pair.Parts.Select(part => part.Name))}.");
        }

        if (pair.Parts.Count > 0 && pair.Parts.All(part => IsSilent(order, part)))
        {
            return Failure.Say(ExitCode.BadCommandLine, "--only and --mute together leave nothing to hear. Take one of the names out.");
        }

        pair.CouplingDepth.Target = (float)order.Coupling;
        pair.LevelDb.Target = (float)order.LevelDb;
        pair.PlayedDetuneCents.Target = (float)order.DetunePlayedCents;
        pair.SungDetuneCents.Target = (float)order.DetuneSungCents;
        pair.SungDetuneHz.Target = (float)order.DetuneSungHz;
        if (Set(pair, order.Settings) is { } refused)
        {
            return Failure.Say(ExitCode.BadCommandLine, refused);
        }

        WavWriteOptions options = new(order.SampleRateHz, 1, order.Encoding);
        using EndAsked ended = new();
        TracksWritten tracks;
        try
        {
            tracks = PairTracks.Write(pair, Score(pair, order), order.Seconds, order.Output, options, order.WithStems, ended.Token);
        }
        catch (OperationCanceledException)
        {
            return Failure.Say(ended.Code, "ended before the sound was whole: nothing was written.");
        }

        foreach (WavWritten file in tracks.Files)
        {
            Console.Out.Write(string.Create(CultureInfo.InvariantCulture, $"{file.Path}  {file.Seconds:F3} s, {file.SampleRateHz} Hz\n"));
            foreach (string note in file.Notes.Where(note => note != tracks.Failure?.Message))
            {
                Console.Error.WriteLine($"brassvox: {file.Path}: {note}");
            }
        }

        return tracks.Failure is { } failure ? Failure.Say(ExitCode.CannotStore, failure.Message) : ExitCode.Done;
    }

    // Says what is wrong with a setting, or nothing. The controls, their units and ranges come from the engine itself.
    private static string? Set(IPairEngine pair, IReadOnlyList<string> settings)
    {
        foreach (string setting in settings)
        {
            string[] sides = setting.Split('=', 2);
            if (pair.Parameters.FirstOrDefault(parameter => Is(parameter.Spec.Id, sides[0])) is not { } control)
            {
                return $"--set: there is no \"{sides[0]}\"; there are {string.Join(", ", pair.Parameters.Select(parameter => Range(parameter.Spec)))}.";
            }

            if (sides.Length < 2 || !float.TryParse(sides[1], NumberStyles.Float, CultureInfo.InvariantCulture, out float value)
                || !(value >= control.Spec.Minimum && value <= control.Spec.Maximum))
            {
                return $"--set: \"{setting}\" is not within {Range(control.Spec)}.";
            }

            control.Target = value;
        }

        return null;

        static string Range(ParameterSpec spec) =>
            string.Create(CultureInfo.InvariantCulture, $"{spec.Id}={spec.Minimum}..{spec.Maximum}{(spec.Unit.Length > 0 ? " " + spec.Unit : "")}");
    }

    private static List<PairEvent> Score(IPairEngine pair, RenderOrder order)
    {
        List<PairEvent> score =
        [
            PairEvent.Pitch(VoiceRole.Played, Path(order.PlayedHz, order.GlidePlayedHz, order.Seconds)),
            PairEvent.Pitch(VoiceRole.Sung, Path(order.SungHz, order.GlideSungHz, order.Seconds)),
        ];
        foreach (PairPart part in pair.Parts)
        {
            if (IsSilent(order, part))
            {
                score.Add(PairEvent.Gain(part.Index, -80));
            }
        }

        score.Add(PairEvent.Start());
        score.Add(PairEvent.Stop((long)Math.Round((order.Seconds - RampSeconds) * order.SampleRateHz)));
        return score;
    }

    private static bool IsSilent(RenderOrder order, PairPart part) =>
        order.Mute.Any(name => Is(part.Name, name)) || (order.Only.Count > 0 && !order.Only.Any(name => Is(part.Name, name)));

    private static PitchPath Path(double fromHz, double? toHz, double seconds) =>
        toHz is { } end ? PitchPath.Glide(fromHz, end, seconds) : PitchPath.Constant(fromHz);

    private static bool Is(string name, string asked) => string.Equals(name, asked, StringComparison.OrdinalIgnoreCase);
}
