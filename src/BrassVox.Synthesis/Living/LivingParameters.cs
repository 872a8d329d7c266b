namespace BrassVox.Synthesis.Living;

/// <summary>The controls of a living pair and the values that follow them on the sound thread.</summary>
internal sealed class LivingParameters(VoicePreset voice) : SmoothedParameters(
    [
        new(new("couplingDepth", "", 0, 1, 0, 50)),
        new(new("levelDb", "dB", -60, 12, 0, 50)),
        new(new("playedDetuneCents", "c", -1200, 1200, 0, 30)),
        new(new("sungDetuneCents", "c", -1200, 1200, 0, 30)),
        new(new("sungDetuneHz", "Hz", -50, 50, 0, 30)),
        new(new("dynamic", "", 0, 1, 0.5f, 200)),
        new(new("lipBendCents", "c", -600, 600, 0, 30)),
        new(new("breathNoise", "%", 0, 10, 0.5f, 50)),
        new(new("balanceDb", "dB", -24, 24, 0, 50)),
        new(new("vowel", "", 0, voice.Vowels.Count - 1, voice.DefaultVowelIndex(), 120)),
        new(new("register", "", 0, 1, 0, 120)),
        new(new("voiceColour", "", 0, 1, 1, 120)),
    ])
{
    internal const int CouplingDepth = 0;
    internal const int LevelDb = 1;
    internal const int PlayedDetuneCents = 2;
    internal const int SungDetuneCents = 3;
    internal const int SungDetuneHz = 4;
    internal const int Dynamic = 5;
    internal const int LipBendCents = 6;
    internal const int BreathNoise = 7;
    internal const int BalanceDb = 8;
    internal const int Vowel = 9;
    internal const int Register = 10;
    internal const int VoiceColour = 11;
}
