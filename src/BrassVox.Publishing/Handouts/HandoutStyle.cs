namespace BrassVox.Publishing.Handouts;

/// <summary>How a handout looks: on a phone, on a screen, dark or light, and on A4 or Letter.</summary>
internal static class HandoutStyle
{
    public const string Css = """
        :root { color-scheme: light dark; --ink: #1a1a1a; --paper: #ffffff; --line: #767676; --link: #0b4a8f; }
        @media (prefers-color-scheme: dark) { :root { --ink: #ececec; --paper: #16181a; --line: #9a9a9a; --link: #9cc7ff; } }
        body { margin: 0 auto; max-width: 46rem; padding: 1rem; font: 1.05rem/1.5 Georgia, "DejaVu Serif", serif; color: var(--ink); background: var(--paper); }
        h1 { font-size: 1.7rem; line-height: 1.2; } h2 { font-size: 1.3rem; line-height: 1.25; border-top: 1px solid var(--line); padding-top: 1rem; }
        a { color: var(--link); }
        table { border-collapse: collapse; width: 100%; margin: 1rem 0; font-size: 0.95rem; }
        caption { text-align: left; font-style: italic; padding-bottom: 0.3rem; }
        th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.6rem 0.25rem 0; border-bottom: 1px solid var(--line); }
        figure { margin: 1rem 0; } figure img { width: 100%; height: auto; background: #ffffff; } figcaption { font-size: 0.9rem; }
        .sound { list-style: none; padding: 0; } .sound li { display: flex; flex-wrap: wrap; align-items: center; gap: 0.4rem 1rem; margin: 0.4rem 0; }
        .sound span { flex: 1 1 14rem; } audio { flex: 1 1 18rem; min-width: 0; height: 2.5rem; }
        footer { border-top: 1px solid var(--line); font-size: 0.9rem; }
        @page { margin: 16mm; }
        @media print {
          :root { --ink: #000000; --paper: #ffffff; --line: #555555; --link: #000000; }
          body { max-width: none; padding: 0; font-size: 10.5pt; } .sound, nav { display: none; }
          figure, table, tr, li { break-inside: avoid; } h2, caption { break-after: avoid; } figure img { max-height: 90mm; width: auto; max-width: 100%; }
        }

        """;
}
