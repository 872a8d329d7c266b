namespace BrassVox.Publishing.Handouts;

/// <summary>How a handout looks: on a phone, on a screen, dark or light, and on A4 or Letter.</summary>
internal static class HandoutStyle
{
    /// <summary>Where a phone's picture is shown: not on paper, whose width is that of a screen.</summary>
    public const string Narrow = "screen and (max-width: 30rem)";

    public const string Css = """
        :root { color-scheme: light dark; --ink: #1a1a1a; --paper: #ffffff; --line: #767676; --link: #0b4a8f; }
        @media (prefers-color-scheme: dark) { :root { --ink: #ececec; --paper: #16181a; --line: #9a9a9a; --link: #9cc7ff; } }
        body { margin: 0 auto; max-width: 46rem; padding: 1rem; font: 1.05rem/1.5 Georgia, "DejaVu Serif", serif; color: var(--ink); background: var(--paper); overflow-wrap: break-word; }
        h1 { font-size: 1.7rem; line-height: 1.2; } h2 { font-size: 1.35rem; line-height: 1.25; border-top: 2px solid var(--line); padding-top: 1rem; margin-top: 2rem; }
        h3 { font-size: 1.1rem; margin: 1.4rem 0 0.4rem; }
        a { color: var(--link); } a:focus-visible, audio:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
        table { border-collapse: collapse; width: 100%; margin: 0.6rem 0 1rem; font-size: 0.95rem; }
        caption { text-align: left; font-style: italic; padding-bottom: 0.3rem; }
        th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.6rem 0.25rem 0; border-bottom: 1px solid var(--line); }
        figure { margin: 1rem 0; } figure img { box-sizing: border-box; max-width: 100%; height: auto; padding: 0.5rem; background: #ffffff; } figcaption { font-size: 0.9rem; }
        .course svg { width: 100%; max-width: 30rem; height: auto; font: 11px sans-serif; } .course text { fill: var(--ink); } .course rect { fill: var(--ink); }
        .course polyline { fill: none; stroke: var(--ink); stroke-width: 1.5; } .course .rule { stroke: var(--line); stroke-width: 0.5; }
        .sound { list-style: none; padding: 0; } .sound li { display: flex; flex-wrap: wrap; align-items: center; gap: 0.4rem 1rem; margin: 0.4rem 0; }
        .sound span { flex: 1 1 14rem; } audio { flex: 1 1 18rem; min-width: 0; height: 2.5rem; }
        .on-paper { display: none; }
        @media (max-width: 30rem) { table { font-size: 0.85rem; } th, td { padding-right: 0.7rem; } th:last-child, td:last-child { padding-right: 0; } }
        footer { border-top: 1px solid var(--line); font-size: 0.9rem; margin-top: 2rem; }
        @page { margin: 14mm; }
        @media print {
          :root { color-scheme: light; --ink: #000000; --paper: #ffffff; --line: #555555; --link: #000000; }
          body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.35; } .sound, nav { display: none; } .on-paper { display: block; }
          h1 { font-size: 16pt; margin: 0; } header p { margin: 2mm 0 0; } h2 { font-size: 13pt; margin: 4mm 0 2mm; padding-top: 3mm; } h3 { font-size: 10.5pt; margin: 3mm 0 1mm; } p, ol, ul { margin: 1.5mm 0; }
          table { font-size: 9pt; margin: 1mm 0 2mm; } small { font-size: 8pt; } th, td { padding: 0.5mm 3mm 0.5mm 0; }
          article + article { break-before: page; } figure, tr, li, section, .on-paper, .practise { break-inside: avoid; } h2, h3, caption { break-after: avoid; }
          figure { margin: 2mm 0; } figure img { padding: 0; max-height: 62mm; } figcaption, footer { font-size: 8.5pt; } footer, footer p { margin: 1mm 0; }
          .take figure img { width: 100%; max-height: 125mm; object-fit: contain; object-position: left top; } .take table { break-inside: avoid; } .take table.notes { break-inside: auto; }
          .made figure img { width: 100%; max-height: none; }
          .lines td, .lines th { height: 8mm; vertical-align: bottom; } .lines th:first-child { width: 8mm; } .lines th:nth-child(2) { width: 26mm; } .lines th:nth-child(3), .lines th:nth-child(4) { width: 20mm; }
        }

        """;
}
