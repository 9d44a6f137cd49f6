using System.Net;
using System.Text;

namespace BosFlow.Results.Report;

/// <summary>Builds a page; every text goes through escaping, only this class writes marks.</summary>
internal sealed class Html
{
    private readonly StringBuilder page = new();

    public override string ToString() => page.ToString();

    /// <summary>Marks as they are; never with text from outside in them.</summary>
    public Html Raw(string marks)
    {
        page.Append(marks).Append('\n');
        return this;
    }

    public Html Heading(int level, string text) => Raw($"<h{level}>{Escaped(text)}</h{level}>");

    public Html Paragraph(string text, string? cssClass = null) => Raw(cssClass is null ? $"<p>{Escaped(text)}</p>" : $"<p class=\"{cssClass}\">{Escaped(text)}</p>");

    public Html List(IEnumerable<string> items) => List(items, "ul");

    /// <summary>A list whose order matters.</summary>
    public Html Numbered(IEnumerable<string> items) => List(items, "ol");

    public Html Picture(byte[] png, string alternative, string caption) => Raw(
        $"<figure><img alt=\"{Escaped(alternative)}\" src=\"data:image/png;base64,{Convert.ToBase64String(png)}\"><figcaption>{Escaped(caption)}</figcaption></figure>");

    public Html Table(IReadOnlyList<string> head, IEnumerable<IReadOnlyList<string>> rows, string? cssClass = null)
    {
        Raw(cssClass is null ? "<div class=\"wide\"><table>" : $"<div class=\"wide\"><table class=\"{cssClass}\">");
        Raw($"<thead><tr>{string.Concat(head.Select(h => $"<th>{Escaped(h)}</th>"))}</tr></thead><tbody>");
        foreach (IReadOnlyList<string> row in rows)
            Raw($"<tr>{string.Concat(row.Select(cell => $"<td>{Escaped(cell)}</td>"))}</tr>");
        return Raw("</tbody></table></div>");
    }

    private Html List(IEnumerable<string> items, string mark)
    {
        Raw($"<{mark}>");
        foreach (string item in items)
            Raw($"<li>{Escaped(item)}</li>");
        return Raw($"</{mark}>");
    }

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
