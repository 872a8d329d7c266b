using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Passages;

namespace BrassVox.App.Tui.Rooms;

/// <summary>How Passage is practised: loop, tempo, octave of the voice, role, help left.</summary>
internal sealed partial class PassageRoom
{
    private void ChangeTempo(double by)
    {
        _tempo = Math.Clamp(_tempo + by, TakeOptions.SlowestPercent, TakeOptions.FastestPercent);
        Stand.Say($"Tempo {TempoWords()}.");
    }

    private void Loop()
    {
        if (_passage is not { } passage || _report is not { Moments.Count: > 0 } report)
        {
            return;
        }

        int bar = report.Moments[_moment].Bar;
        if (_loopIsOpen)
        {
            (_fromBar, _toBar) = (Math.Min(_fromBar, bar), Math.Max(_fromBar, bar));
            _loopIsOpen = false;
        }
        else if (_fromBar == bar && _toBar == passage.Bars.Count)
        {
            _fromBar = 1;
        }
        else
        {
            (_fromBar, _toBar) = (bar, passage.Bars.Count);
            _loopIsOpen = true;
        }

        _help = _help with { CleanInRow = 0 };
        Stand.Say(_loopIsOpen ? $"The loop begins at bar {_fromBar}; r again on its last bar." : $"The loop is {LoopWords()}.");
    }

    private void NextOctave()
    {
        if (_passage is not { } passage)
        {
            return;
        }

        int next = _octaves switch { 0 => 1, 1 => -1, _ => 0 };
        if (passage.Sung.Any(note => note.Note.Octave + next is < 0 or > 8))
        {
            next = 0;
        }

        _octaves = next;
        _last.Clear();
        Read();
        int outside = Sounding.Sung.Count(note => !Stand.Profile.CanSing(note.Note));
        Stand.Say(string.Create(CultureInfo.InvariantCulture, $"The voice {OctaveWords()}: {outside} of its {passage.Sung.Count} notes lie outside your range; what is made changes with it."));
    }

    private void NextRole()
    {
        _role = (PlayerRole)(((int)_role + 1) % 3);
        Stand.Say(_role switch
        {
            PlayerRole.Plays => "You play; the voice is synthesised.",
            PlayerRole.Sings => "You sing; the played tone is synthesised.",
            _ => "You play and sing.",
        });
    }

    private void HelpBack()
    {
        if (_help.Step > HelpStep.BothTones)
        {
            _help = new HelpLadder(_help.Step - 1);
        }

        Stand.Say($"With {HelpWords(_help.Step)}.");
    }

    private string LoopWords() => _fromBar == _toBar ? $"bar {_fromBar}" : $"bars {_fromBar}-{_toBar}";

    private string TempoWords() => string.Create(CultureInfo.InvariantCulture, $"{_tempo:0} %");

    private string OctaveWords() => _octaves switch { 0 => "as written", 1 => "an octave higher", _ => "an octave lower" };

    private static string HelpWords(HelpStep step) => step switch
    {
        HelpStep.BothTones => "both tones",
        HelpStep.OtherTone => "the other tone",
        HelpStep.Cue => "the first sung note and the click",
        HelpStep.Click => "the click",
        _ => "nothing after the count",
    };
}
