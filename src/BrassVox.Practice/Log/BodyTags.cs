namespace BrassVox.Practice.Log;

/// <summary>The words of the body tags.</summary>
public static class BodyTags
{
    /// <summary>All tags, in the order of their keys 1 to 6.</summary>
    public static IReadOnlyList<BodyTag> All { get; } = Enum.GetValues<BodyTag>();

    /// <summary>A tag as it is said: tongue root.</summary>
    /// <param name="tag">The tag.</param>
    public static string Name(BodyTag tag) => tag == BodyTag.TongueRoot ? "tongue root" : tag.ToString().ToLowerInvariant();

    /// <summary>Reads a tag by its name; "tongue-root" and "tongue" are read as well.</summary>
    /// <param name="text">The word, any case.</param>
    public static BodyTag? Parse(string text)
    {
        string word = text.Trim().Replace('-', ' ').ToLowerInvariant();
        return word == "tongue" ? BodyTag.TongueRoot : All.Cast<BodyTag?>().FirstOrDefault(tag => Name(tag!.Value) == word);
    }
}
