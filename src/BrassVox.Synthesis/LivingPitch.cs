using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>The pitch of one tone as it sounds: its path, what is added to it, vibrato, the slow wander, jitter, and the scoop of an attack.</summary>
internal sealed class LivingPitch
{
    private const double ScoopTimeConstants = 12;
    private readonly QuasiRandom _wander;
    private readonly int _seed;
    private readonly double _scoopCents;
    private readonly double _scoopMs;
    private PitchFollower _path;
    private SeededNoise _noise;
    private int _sampleRateHz;
    private long _now;
    private long _attackAt;
    private double _vibratoCycles;
    private double _cycles;
    private double _jitter;
    private double _shimmer;

    internal LivingPitch(int seed, double scoopCents, double scoopMs)
    {
        _seed = seed;
        _wander = new QuasiRandom(seed);
        _scoopCents = scoopCents;
        _scoopMs = scoopMs;
    }

    /// <summary>What moves the pitch besides its path, from now on.</summary>
    internal Liveliness Now { get; set; }

    /// <summary>Seconds from the attack to a sample ahead; very long when there was none.</summary>
    internal double AttackSeconds(int ahead) => _attackAt == long.MinValue ? 1e3 : (double)(_now + ahead - _attackAt) / _sampleRateHz;

    /// <summary>Amplitude of the present period relative to the mean.</summary>
    internal double Shimmer => 1 + _shimmer;

    internal void Reset(double frequencyHz, int sampleRateHz)
    {
        _path.Reset(frequencyHz, sampleRateHz);
        _sampleRateHz = sampleRateHz;
        _noise = new SeededNoise(_seed);
        _now = 0;
        _attackAt = long.MinValue;
        _vibratoCycles = 0;
        _cycles = 0;
        _jitter = 0;
        _shimmer = 0;
        Now = default;
    }

    internal void Follow(PitchPath path, bool slide) => _path.Follow(path, _now, slide);

    internal void Attack()
    {
        _attackAt = _now;
        _vibratoCycles = 0;
    }

    /// <summary>Frequency some samples ahead, in Hz, with the added cents and Hz of that time.</summary>
    internal double FrequencyHz(int ahead, double cents, double hz)
    {
        Liveliness motion = Now;
        double seconds = (double)(_now + ahead) / _sampleRateHz;
        if (motion.VibratoCents != 0)
        {
            cents += motion.VibratoCents * Math.Sin(2 * Math.PI * (_vibratoCycles + (motion.VibratoHz * ahead / _sampleRateHz)));
        }

        if (motion.WanderCents != 0)
        {
            cents += motion.WanderCents * _wander.At(seconds);
        }

        if (_attackAt != long.MinValue)
        {
            double passed = AttackSeconds(ahead) * 1000 / _scoopMs;
            cents -= passed < ScoopTimeConstants ? _scoopCents * Math.Exp(-passed) : 0;
        }

        double sounding = (Cents.Above(_path.FrequencyHz(_now + ahead), cents) * (1 + _jitter)) + hz;
        return Math.Clamp(sounding, 5, 0.2 * _sampleRateHz);
    }

    internal void Advance(int samples, double meanHz)
    {
        _now += samples;
        Liveliness motion = Now;
        _vibratoCycles += motion.VibratoHz * samples / _sampleRateHz;
        _vibratoCycles -= Math.Floor(_vibratoCycles);
        _cycles += meanHz * samples / _sampleRateHz;
        if (_cycles >= 1)
        {
            _cycles -= Math.Floor(_cycles);

            // Even noise from -1 to 1: the mean of |difference of two draws| is 2/3, so 1.5 times the wanted mean change.
            // A draw reaches the ear on average one tick late, so part of it falls into the period after; what that takes from the change is given back.
            double late = Math.Min(0.5, samples * meanHz / _sampleRateHz);
            double kept = Math.Sqrt((((1 - late) * (1 - late)) + ((1 - (2 * late)) * (1 - (2 * late))) + (late * late)) / 2);
            _jitter = motion.JitterPercent * 0.015 / kept * _noise.Next();
            _shimmer = motion.ShimmerPercent * 0.015 * _noise.Next();
        }
    }

    /// <summary>What moves a tone's pitch besides its path.</summary>
    internal readonly record struct Liveliness(double VibratoHz, double VibratoCents, double WanderCents, double JitterPercent, double ShimmerPercent);
}
