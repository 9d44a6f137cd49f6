namespace BosFlow.Results.Report;

/// <summary>The look of the page: dark on white, one column, on paper, screen and phone.</summary>
internal static class ReportStyle
{
    public const string Css =
        """
        :root { color-scheme: light; }
        * { box-sizing: border-box; }
        body { margin: 0 auto; padding: 1.5rem 1rem 4rem; max-width: 62rem; background: #fff; color: #1f2428;
          font: 16px/1.55 "DejaVu Sans", "Helvetica Neue", Arial, sans-serif; overflow-wrap: anywhere; }
        h1 { font-size: 1.9rem; line-height: 1.2; margin: 0.5rem 0 0.25rem; font-weight: 600; }
        h2 { font-size: 1.3rem; margin: 2.6rem 0 0.6rem; padding-top: 0.9rem; border-top: 1px solid #d5dade; font-weight: 600; }
        h3 { font-size: 1.05rem; margin: 1.8rem 0 0.4rem; font-weight: 600; }
        p.under { margin: 0 0 1.4rem; color: #555d64; }
        .verdict { border: 1px solid #d5dade; border-left: 0.5rem solid #6b747c; border-radius: 0.3rem; padding: 0.9rem 1.2rem; background: #f7f8f9; }
        .verdict h2 { margin: 0 0 0.4rem; padding: 0; border: 0; }
        .verdict ul { margin: 0; padding-left: 1.2rem; }
        .good { border-left-color: #2c7a4b; } .fair { border-left-color: #b7791f; } .bad { border-left-color: #b3261e; }
        figure { margin: 1.2rem 0 2.2rem; break-inside: avoid; }
        figure img { display: block; width: 100%; height: auto; border: 1px solid #e3e6e8; }
        figcaption { margin-top: 0.5rem; font-size: 0.92rem; color: #3b4248; }
        .wide { overflow-x: auto; }
        table { border-collapse: collapse; width: 100%; font-size: 0.92rem; font-variant-numeric: tabular-nums; }
        th, td { text-align: left; vertical-align: top; padding: 0.35rem 0.7rem 0.35rem 0; border-bottom: 1px solid #e3e6e8; }
        /* Only long words without a space, such as file names, may be broken: never a number from its unit, nor a heading. */
        th, td { overflow-wrap: break-word; }
        table.hashes td { overflow-wrap: anywhere; }
        th { font-weight: 600; border-bottom-color: #8c9298; }
        table.hashes td:last-child { font-family: "DejaVu Sans Mono", Consolas, monospace; font-size: 0.78rem; }
        .cautions { border: 1px solid #d9b26a; background: #fdf8ee; border-radius: 0.3rem; padding: 0.3rem 1.2rem 0.8rem; break-inside: avoid; }
        .cautions h2 { margin-top: 0.6rem; border: 0; padding: 0; }
        @media print {
          @page { size: A4; margin: 18mm 16mm; }
          body { font-size: 10.5pt; max-width: none; padding: 0; }
          h2, h3 { break-after: avoid; }
          figure img { max-height: 98mm; width: auto; max-width: 100%; margin: 0 auto; }
          .wide { overflow: visible; }
          tr { break-inside: avoid; }
        }
        """;
}
