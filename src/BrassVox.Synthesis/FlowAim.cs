namespace BrassVox.Synthesis;

/// <summary>All that decides the amplitudes of a flow pair at one time.</summary>
/// <param name="PlayedHz">P in Hz.</param>
/// <param name="SungHz">S in Hz.</param>
/// <param name="Depth">Depth of coupling, 0 to 1.</param>
/// <param name="DynamicDb">Dynamic of the played tone in dB; 0 as measured.</param>
/// <param name="BalanceDb">Loudness of the free voice over that of the played tone at dynamic 0.</param>
/// <param name="Vowel">Place between vowels.</param>
/// <param name="Register">0 chest, 1 falsetto.</param>
/// <param name="ThroughInstrument">0 the voice in free air, 1 through the instrument.</param>
/// <param name="AttackSeconds">Time since the note began, in seconds.</param>
internal readonly record struct FlowAim(
    double PlayedHz, double SungHz, double Depth, double DynamicDb, double BalanceDb,
    double Vowel, double Register, double ThroughInstrument, double AttackSeconds);
