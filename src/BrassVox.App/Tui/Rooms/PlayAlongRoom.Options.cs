using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Tui.Rooms;

/// <summary>How the player takes the exercise today: role, drone, tempo. Passage brings its own.</summary>
internal sealed partial class PlayAlongRoom
{
    private const double TempoStep = 5;
    private TakeOptions _options = new();

    private bool HasOptions => _revealed is null;

    private IEnumerable<RoomKey> OptionKeys => HasOptions
        ?
        [
            new("o", "you play and sing, only play, only sing", ['o'], NextRole),
            new("m", "drone: as the exercise says, throughout, three seconds on and three off, none", ['m'], NextDrone),
            new(",", "slower, 40 % at least", [','], () => ChangeTempo(-TempoStep)),
            new(".", "faster, 110 % at most", ['.'], () => ChangeTempo(TempoStep)),
        ]
        : [];

    private IEnumerable<Choice> OptionChoices => HasOptions
        ? [new Choice("change who plays, who sings", NextRole), new Choice("change the drone", NextDrone), new Choice("slower", () => ChangeTempo(-TempoStep)), new Choice("faster", () => ChangeTempo(TempoStep))]
        : [];

    private string OptionWords => string.Create(
        CultureInfo.InvariantCulture, $"{RoleWords(_options.Role)} {DroneWords(_options.Drone)}{(HasTempo ? $" Tempo {_options.TempoPercent:0} %." : "")}");

    private bool HasTempo => _given.Exercise.PlayAlong?.TempoBpm is not null;

    private static string RoleWords(PlayerRole role) => role switch
    {
        PlayerRole.Plays => "You play; the voice is synthesised.",
        PlayerRole.Sings => "You sing; the played tone is synthesised.",
        _ => "You play and sing.",
    };

    private static string DroneWords(DroneUse drone) => drone switch
    {
        DroneUse.Throughout => "The drone sounds throughout.",
        DroneUse.DropOuts => "The drone comes and goes, three seconds each.",
        DroneUse.Silent => "No drone.",
        _ => "Drone as the exercise says.",
    };

    private void NextRole() => Change(_options with { Role = (PlayerRole)(((int)_options.Role + 1) % 3) });

    private void NextDrone() => Change(_options with { Drone = (DroneUse)(((int)_options.Drone + 1) % 4) });

    private void ChangeTempo(double by)
    {
        if (!HasTempo)
        {
            Stand.Say("This exercise counts seconds: it has no tempo.");
            return;
        }

        Change(_options with { TempoPercent = Math.Clamp(_options.TempoPercent + by, TakeOptions.SlowestPercent, TakeOptions.FastestPercent) });
    }

    private void Change(TakeOptions options)
    {
        if (_isPredicting || _phase is not (PlayAlongPhase.Ready or PlayAlongPhase.Reveal))
        {
            Stand.Say("Between two takes, not within one.");
            return;
        }

        _options = options;
        _next = options.Apply(_given);
        Stand.Say(_phase == PlayAlongPhase.Reveal ? $"Next take: {OptionWords}" : OptionWords);
    }

    // The session is tied to its steps: other options are another session.
    private void TakeOptionsUp()
    {
        if (!ReferenceEquals(_exercise, _next))
        {
            _exercise = _next;
            _session?.Leave();
            _session = null;
        }
    }
}
