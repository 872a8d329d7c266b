namespace BrassVox.Practice.Passages;

/// <summary>The letter under the accents, for names of files. Its own table: without the system's language data the runtime leaves accents on.</summary>
internal static class BareLetters
{
    // The letter, then the small letters with it and any marks of the first plane of Unicode (canonical decompositions of Unicode 15).
    private static readonly string[] Marked =
    [
        "aàáâãäåāăąǎǟǡǻȁȃȧḁạảấầẩẫậắằẳẵặ",
        "bḃḅḇ",
        "cçćĉċčḉ",
        "dďḋḍḏḑḓ",
        "eèéêëēĕėęěȅȇȩḕḗḙḛḝẹẻẽếềểễệ",
        "fḟ",
        "gĝğġģǧǵḡ",
        "hĥȟḣḥḧḩḫẖ",
        "iìíîïĩīĭįİǐȉȋḭḯỉị",
        "jĵǰ",
        "kķǩḱḳḵK",
        "lĺļľḷḹḻḽ",
        "mḿṁṃ",
        "nñńņňǹṅṇṉṋ",
        "oòóôõöōŏőơǒǫǭȍȏȫȭȯȱṍṏṑṓọỏốồổỗộớờởỡợ",
        "pṕṗ",
        "rŕŗřȑȓṙṛṝṟ",
        "sśŝşšșṡṣṥṧṩ",
        "tţťțṫṭṯṱẗ",
        "uùúûüũūŭůűųưǔǖǘǚǜȕȗṳṵṷṹṻụủứừửữự",
        "vṽṿ",
        "wŵẁẃẅẇẉẘ",
        "xẋẍ",
        "yýÿŷȳẏẙỳỵỷỹ",
        "zźżžẑẓẕ",
    ];

    private static readonly Dictionary<char, char> Bare =
        Marked.SelectMany(row => row[1..].Select(marked => (marked, row[0]))).ToDictionary(pair => pair.marked, pair => pair.Item2);

    /// <summary>The small letter without its marks; what is no Latin letter with marks comes back small.</summary>
    public static char Of(char letter)
    {
        char small = char.ToLowerInvariant(letter);
        return Bare.TryGetValue(small, out char bare) ? bare : small;
    }
}
