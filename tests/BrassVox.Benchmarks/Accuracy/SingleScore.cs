using System.ComponentModel;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>How often a general-purpose tool that tells one pitch is within 25 cents of the played tone, of the sung one, of both.</summary>
internal sealed class SingleScore(string name, Func<MadeMixes.Mix, List<(double Seconds, double Hz)>> track)
{
    private const double HopSeconds = 0.01;

    private readonly int[] _frames = new int[2];
    private readonly int[] _played = new int[2];
    private readonly int[] _sung = new int[2];
    private readonly int[] _both = new int[2];
    private bool _missing;

    /// <summary>The tools, each in the range that holds every tone of the recordings.</summary>
    public static SingleScore[] All() =>
    [
        new("aubio yinfft", mix => AubioTrack.Of(mix.Mono, MadeMixes.RateOfMixesHz)),
        new("Praat autocorrelation", mix => PraatTrack.Of(mix.Mono, MadeMixes.RateOfMixesHz, 40.0, 700.0)),
    ];

    public void Add(MadeMixes.Mix mix)
    {
        if (_missing)
        {
            return;
        }

        List<(double Seconds, double Hz)> found;
        try
        {
            found = track(mix);
        }
        catch (Win32Exception)
        {
            _missing = true;
            return;
        }

        if (found.Count == 0)
        {
            found.Add((double.NegativeInfinity, 1.0));
        }

        int kind = mix.IsCoupled ? 1 : 0;
        for (double t = mix.Truth.FromSeconds; t <= mix.Truth.ToSeconds; t += HopSeconds)
        {
            (double p, double s) = mix.Truth.At(t);
            _frames[kind]++;
            (double Seconds, double Hz) near = found.MinBy(x => Math.Abs(x.Seconds - t));
            if (Math.Abs(near.Seconds - t) > HopSeconds)
            {
                continue;
            }

            bool played = Math.Abs(Cents.Between(p, near.Hz)) < 25.0;
            bool sung = Math.Abs(Cents.Between(s, near.Hz)) < 25.0;
            _played[kind] += played ? 1 : 0;
            _sung[kind] += sung ? 1 : 0;
            _both[kind] += played && sung ? 1 : 0;
        }
    }

    public override string ToString() => _missing
        ? $"{name,-24} not installed, left out"
        : $"{name,-24} {Row(0)}    {Row(1)}";

    private string Row(int kind)
    {
        double all = Math.Max(1, _frames[kind]);
        return FormattableString.Invariant($"{_played[kind] / all,8:0.000}{_sung[kind] / all,8:0.000}{_both[kind] / all,8:0.000}");
    }
}
