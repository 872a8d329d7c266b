using System.CommandLine;
using BrassVox.Practice.Passages;

namespace BrassVox.App.Cli;

/// <summary>--from and --to, the bars of a turn.</summary>
internal sealed class BarOptions
{
    private readonly Option<int> _from = CommonOptions.WholeOption("--from", 1, 2000, 1, "First bar");
    private readonly Option<int> _to = CommonOptions.WholeOption("--to", 0, 2000, 0, "Last bar; 0 for the end");

    public void AddTo(Command command)
    {
        command.Add(_from);
        command.Add(_to);
    }

    public PassageTurn Turn(ParseResult arguments, HelpStep help) =>
        new(arguments.GetValue(_from), arguments.GetValue(_to) is var last and > 0 ? last : null, help);

    /// <summary>What is wrong with the bars asked for; null when nothing is.</summary>
    public string? Fault(ParseResult arguments, Passage passage)
    {
        int from = arguments.GetValue(_from);
        int to = arguments.GetValue(_to) is var given and > 0 ? given : passage.Bars.Count;
        if (from > passage.Bars.Count || to > passage.Bars.Count || from > to)
        {
            return $"there are bars 1 to {passage.Bars.Count}; --from {from} --to {to} asks for others.";
        }

        long start = passage.Bars[from - 1].StartTick;
        long end = passage.Bars[to - 1].StartTick + passage.Bars[to - 1].LengthTicks;
        return passage.Played.Concat(passage.Sung).Any(note => note.StartTick < end && note.EndTick > start) ? null : $"bars {from} to {to} hold no note.";
    }
}
