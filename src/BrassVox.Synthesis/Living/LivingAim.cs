namespace BrassVox.Synthesis.Living;

/// <summary>Where the living system is to be at the end of a stretch of samples.</summary>
/// <param name="PlayedHz">Pitch asked of the lips, in Hz.</param>
/// <param name="SungHz">Pitch of the voice, in Hz.</param>
/// <param name="Depth">Coupling, 0 to 1.</param>
/// <param name="Dynamic">Breath, 0 (pp) to 1 (ff).</param>
/// <param name="LipBendCents">Lips tuned off the note, in cents; the column stays.</param>
/// <param name="BreathNoise">Noise of the breath in units of its pressure.</param>
/// <param name="Vowel">Place between vowels.</param>
/// <param name="Register">0 chest, 1 falsetto.</param>
/// <param name="VoiceColour">Share of the overtones that the voice has in the mouth, 0 (a pure tone) to 1.</param>
/// <param name="BalanceDb">Loudness of the voice over that of the played tone, in dB.</param>
/// <param name="VoiceGain">Factor on the voice, free and in the mouth.</param>
internal readonly record struct LivingAim(
    double PlayedHz,
    double SungHz,
    double Depth,
    double Dynamic,
    double LipBendCents,
    double BreathNoise,
    double Vowel,
    double Register,
    double VoiceColour,
    double BalanceDb,
    double VoiceGain);
