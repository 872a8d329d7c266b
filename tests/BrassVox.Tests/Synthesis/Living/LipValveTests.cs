using BrassVox.Synthesis.Living;
using Xunit;

namespace BrassVox.Tests.Synthesis.Living;

/// <summary>The lip valve against published figures.</summary>
public sealed class LipValveTests
{
    // Trumpet lips of Freour et al. 2020: 382 Hz, 2 kg/m2, 0.1 mm, 8 mm wide, 5500 Pa; printed in scaled form as closing pressure 1152 Pa, gamma 4.8, zeta 0.16
    // (an open wind-acoustics toolbox, input radius 5 mm, 25 degrees: 346.1 m/s, 1.184 kg/m3).
    [Fact]
    public void A_published_set_of_lips_gives_its_published_scaled_form()
    {
        double closing = LipValve.ClosingPressure(382, 2, 1e-4);
        Assert.Equal(1152.17, closing, 0.5);
        Assert.Equal(4.774, LipValve.Gamma(5500, closing), 0.01);
        Assert.Equal(0.1598, LipValve.Zeta(1.184, 346.1, 0.005, 1e-4, 8e-3, closing), 0.002);
    }

    // Bernoulli: 3 kPa, 1.2 kg/m3 give 70.711 m/s; through 0.29 mm x 10 mm 2.0506e-4 m3/s.
    [Fact]
    public void A_jet_follows_bernoulli()
    {
        Assert.Equal(70.711, LipValve.JetSpeed(3000, 1.2), 0.001);
        double conductance = 0.01 * 0.29e-3 * Math.Sqrt(2 / 1.2);
        Assert.Equal(2.0506e-4, LipValve.Flow(conductance, 3000, 0, 0), 2.0506e-7);
        Assert.Equal(-2.0506e-4, LipValve.Flow(conductance, -3000, 0, 0), 2.0506e-7);
    }

    [Fact]
    public void The_flow_satisfies_the_column_and_the_jet_at_once()
    {
        const int Seed = 31;
        Random random = new(Seed);
        for (int i = 0; i < 1000; i++)
        {
            double conductance = random.NextDouble() * 1e-5;
            double mouth = (random.NextDouble() - 0.3) * 8000;
            double history = (random.NextDouble() - 0.5) * 16000;
            double prompt = random.NextDouble() * 1e6;
            double flow = LipValve.Flow(conductance, mouth, history, prompt);
            double difference = mouth - history - (prompt * flow);
            double jet = conductance * Math.Sign(difference) * Math.Sqrt(Math.Abs(difference));
            Assert.True(Math.Abs(jet - flow) <= 1e-7 * conductance * 100, $"seed {Seed}, case {i}: {jet} and {flow}");
        }
    }

    // Adler 1946: offset 3 Hz, lock 2 Hz: sqrt(5); within the range no beat. Range: f / (2 Q) times the ratio of amplitudes.
    [Fact]
    public void Beats_near_capture_follow_adler()
    {
        Assert.Equal(2.2361, Pulling.BeatHz(3, 2), 1e-4);
        Assert.Equal(1.5, Pulling.BeatHz(-2.5, 2), 1e-9);
        Assert.Equal(0, Pulling.BeatHz(1.9, 2));
        Assert.Equal(0.1457, Pulling.LockHz(116.54, 20, 0.05), 1e-4);

        // The equation itself, integrated: d phase / dt = offset - lock sin(phase).
        const double Step = 1e-4;
        double phase = 0;
        double from = 0;
        for (int i = 0; i < 300000; i++)
        {
            phase += 2 * Math.PI * Step * (3 - (2 * Math.Sin(phase + (Math.PI * Step * (3 - (2 * Math.Sin(phase)))))));
            from = i == 99999 ? phase : from;
        }

        Assert.Equal(Pulling.BeatHz(3, 2), (phase - from) / (2 * Math.PI * 20), 0.02);
    }
}
