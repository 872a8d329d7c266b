using System.CommandLine;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Cli;

/// <summary>The options that say how a take is made today: role, drone, tempo, click, repetitions.</summary>
internal sealed class TakeOptionWords
{
    private readonly Option<PlayerRole> _role = PlayerOptions.Words("--role", PlayerRole.Both, "Which tone you make; the other is synthesised");
    private readonly Option<DroneUse> _drone = PlayerOptions.Words("--drone", DroneUse.Planned, "What the program sounds of your own tones; drop-outs is three seconds with, three without");
    private readonly Option<double> _tempo = CommonOptions.NumberOption("--tempo", "%", TakeOptions.SlowestPercent, TakeOptions.FastestPercent, 100, "Tempo in per cent of the written one");
    private readonly Option<ClickUse> _click = PlayerOptions.Words("--click", ClickUse.Off, "When a click is heard");
    private readonly Option<int> _clickChannel = CommonOptions.WholeOption("--click-channel", 0, 64, 0, "Output channel that the click has for itself; 0 mixes it in");
    private readonly Option<int> _repeat = CommonOptions.WholeOption("--repeat", 1, 50, 1, "Takes one after another");

    private readonly Option<string?> _expect = new("--expect")
    {
        Description = "What you expect of the take, where the exercise asks for a number first: cents or beats a second; asked for on the spot unless given",
        HelpName = "number",
    };

    public void AddTo(Command command, bool withDrone = true)
    {
        foreach (Option option in new Option[] { _role, _drone, _tempo, _click, _clickChannel, _repeat })
        {
            if (withDrone || option != _drone)
            {
                command.Add(option);
            }
        }

        if (withDrone)
        {
            command.Add(_expect);
        }
    }

    public TakeOptions Read(ParseResult arguments) => new(
        arguments.GetValue(_role),
        arguments.GetResult(_drone) is null ? DroneUse.Planned : arguments.GetValue(_drone),
        arguments.GetValue(_tempo));

    public LiveTake Live(ParseResult arguments, double delayMs, ClickUse clickUnlessGiven = ClickUse.Off) => new(
        delayMs, arguments.GetResult(_click) is { Implicit: false } ? arguments.GetValue(_click) : clickUnlessGiven, arguments.GetValue(_clickChannel), arguments.GetValue(_repeat));

    /// <summary>The expected number; null and null where none is asked for or given, else what is wrong with it.</summary>
    public (Prediction? Prediction, string? Problem) Expected(ParseResult arguments, ResolvedExercise resolved) => (arguments.GetResult(_expect) is null ? null : arguments.GetValue(_expect), Predictions.AskedBy(resolved)) switch
    {
        (null, _) => (null, null),
        (_, null) => (null, $"{resolved.Exercise.Id} asks for no number before the take. Leave --expect out."),
        ({ } text, { } figure) => Predictions.Read(figure, text),
    };
}

/// <summary>How takes with sound run.</summary>
/// <param name="DelayMs">Measured round-trip delay in ms; 0 when not measured.</param>
/// <param name="Click">When a click is heard.</param>
/// <param name="ClickChannel">Channel from 1 that the click has for itself; 0 mixes it in.</param>
/// <param name="Takes">Takes one after another.</param>
internal sealed record LiveTake(double DelayMs, ClickUse Click, int ClickChannel, int Takes)
{
    /// <summary>The number expected of each take; null asks for it where the exercise wants one.</summary>
    public Prediction? Expected { get; init; }
}
