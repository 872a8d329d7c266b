using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>One tone of Explore on its way to another note.</summary>
internal sealed partial class ExploreRoom
{
    /// <summary>The pair as it will be when what glides has arrived: what is changed meanwhile is changed in that.</summary>
    private PairSetting Bound => _glide is { } glide ? glide.End with { Coupling = _pair.Coupling } : _pair;

    private void AskGlide()
    {
        if (RoleInHand is not { } role)
        {
            Stand.Say("Take p or s in hand first: a tone glides, a resultant follows.");
            return;
        }

        Stand.Ask(new TextBox($"glide {(role == VoiceRole.Played ? "P" : "S")} to:", text =>
        {
            if (!NoteNames.TryParse(text, Stand.Memory.Now.Naming, out Pitch note))
            {
                return PairReading.NoNote(text, 0, Stand.Memory.Now.Naming);
            }

            PairSetting end = Bound.WithNote(role, note);
            double toHz = role == VoiceRole.Played ? end.PlayedHz : end.SungHz;
            if (toHz is < LowestPlayedHz or > HighestHz)
            {
                return new TextFault(string.Create(CultureInfo.InvariantCulture, $"{Stand.Name(note)} lies outside {LowestPlayedHz:0} to {HighestHz:0} Hz."));
            }

            BeginGlide(role, end, toHz);
            return null;
        }));
    }

    private void BeginGlide(VoiceRole role, PairSetting end, double toHz)
    {
        var path = PitchPath.Glide(NowHz(role), toHz, GlideSeconds);
        EndGlide();
        Sound();
        Stand.Desk.SetPitch(role, path);
        _glide = new Glide(role, path, Stand.NowSeconds, end);
        Stand.Say(string.Create(CultureInfo.InvariantCulture, $"Gliding to {Stand.Name(end.Note(role))} in {GlideSeconds:0} s."));
    }

    /// <summary>The glide is over or broken off: the tone stands where it was bound.</summary>
    private void EndGlide()
    {
        if (_glide is not null)
        {
            _pair = Bound;
            _glide = null;
            Stand.Memory.Change(now => now with { Pair = _pair });
            _live.Expect(_pair);
        }
    }

    private sealed record Glide(VoiceRole Role, PitchPath Path, double StartedAt, PairSetting End);
}
