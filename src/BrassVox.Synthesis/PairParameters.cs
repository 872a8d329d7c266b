namespace BrassVox.Synthesis;

/// <summary>The controls of a flow pair and the values that follow them on the sound thread.</summary>
internal sealed class PairParameters(VoicePreset voice) : SmoothedParameters(
    [
        new(new("couplingDepth", "", 0, 1, 0, 50)),
        new(new("levelDb", "dB", -60, 12, 0, 50)),
        new(new("playedDetuneCents", "c", -1200, 1200, 0, 30)),
        new(new("sungDetuneCents", "c", -1200, 1200, 0, 30)),
        new(new("sungDetuneHz", "Hz", -50, 50, 0, 30)),
        new(new("balanceDb", "dB", -24, 24, 0, 50)),
        new(new("playedDynamicDb", "dB", -24, 12, 0, 80)),
        new(new("playedVibratoCents", "c", 0, 100, 0, 300)),
        new(new("playedVibratoHz", "Hz", 3, 8, 5, 300)),
        new(new("vowel", "", 0, voice.Vowels.Count - 1, voice.DefaultVowelIndex(), 120)),
        new(new("register", "", 0, 1, 0, 120)),
        new(new("throughInstrument", "", 0, 1, 0, 120)),
        new(new("sungVibratoCents", "c", 0, 150, 0, 300)),
        new(new("sungVibratoHz", "Hz", 5, 7, (float)voice.VibratoHz, 300)),
        new(new("life", "", 0, 1, 0, 300)),
        new(new("earTonesDb", "dB", EarTonesOffDb, 40, EarTonesOffDb, 100)),
        new(new("listeningLevelDbSpl", "dB", 50, 100, 75, 100)),
    ])
{
    internal const int CouplingDepth = 0;
    internal const int LevelDb = 1;
    internal const int PlayedDetuneCents = 2;
    internal const int SungDetuneCents = 3;
    internal const int SungDetuneHz = 4;
    internal const int BalanceDb = 5;
    internal const int PlayedDynamicDb = 6;
    internal const int PlayedVibratoCents = 7;
    internal const int PlayedVibratoHz = 8;
    internal const int Vowel = 9;
    internal const int Register = 10;
    internal const int ThroughInstrument = 11;
    internal const int SungVibratoCents = 12;
    internal const int SungVibratoHz = 13;
    internal const int Life = 14;
    internal const int EarTonesDb = 15;
    internal const int ListeningLevelDbSpl = 16;

    /// <summary>At or below this the ear-made tones are off.</summary>
    internal const float EarTonesOffDb = -40;
}
