using BrassVox.Theory;

namespace BrassVox.Practice.Scenes;

/// <summary>How one tone of a scene comes to its place.</summary>
/// <param name="Role">The tone.</param>
/// <param name="FromCents">Where it begins, in cents from its place, -2400 to 2400.</param>
/// <param name="Seconds">Time it takes, 0.5 to 120 s.</param>
/// <param name="AfterSeconds">How long it stands before it moves, 0 to 60 s.</param>
public sealed record SceneGlide(VoiceRole Role, double FromCents, double Seconds, double AfterSeconds = 0);
