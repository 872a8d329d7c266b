namespace BrassVox.App.Tui.Rooms;

/// <summary>The take that a body note belongs to.</summary>
/// <param name="Id">Its id, known as soon as it is kept; null for none, or for one that could not be kept.</param>
/// <param name="About">That take in a few words; empty for none.</param>
internal sealed record NotedTake(Task<string?> Id, string About)
{
    /// <summary>Of no take.</summary>
    public static readonly NotedTake None = Of(null, "");

    /// <summary>Of a take that is kept already.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="about">That take in a few words.</param>
    public static NotedTake Of(string? id, string about) => new(Task.FromResult(id), about);
}
