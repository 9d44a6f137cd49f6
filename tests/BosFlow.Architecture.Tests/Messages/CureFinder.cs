using System.Text.RegularExpressions;

namespace BosFlow.Architecture.Tests.Messages;

/// <summary>Splits a message into what happened and what the user can do, which is a clause that begins with an order.</summary>
internal static partial class CureFinder
{
    private const string Orders =
        "add|allow|aim|ask|change|check|choose|close|convert|copy|correct|cut|delete|describe|did you mean|draw|exchange|expose|film|focus|finish|free|give yourself|give|gather|install|keep|leave|let|light|look|loosen|lower|make|mend|mount|move|name|open|print|put|raise|read|record|remove|rename|render|repeat|replace|restart|run|save|see|set|shorten|show|split|start|step|take|turn|try|type|use|wait|widen|write|no cure is needed|nothing need be done";

    /// <summary>The message in two parts.</summary>
    /// <param name="text">The message.</param>
    /// <returns>What happened, and the cure; the cure is empty where there is none.</returns>
    public static (string What, string Cure) Split(string text)
    {
        Match order = Order().Match(text);
        if (!order.Success)
            order = Demand().Match(text);
        return order.Success ? (text[..order.Groups["cure"].Index].Trim(), order.Groups["cure"].Value.Trim()) : (text, string.Empty);
    }

    // An order stands at the start of a clause, perhaps behind a condition: "...; where they must hold, give ...".
    [GeneratedRegex(@"[;:.,)](?<cure> (?:(?:so|or|and|then|else|to|for|if|in|where|with|without|unless|before)\b[^;:.]{0,60}?[ ,])??(?:" + Orders + @")\b(?!-).*)$|^(?<cure>(?:give|write|choose|check|remove|keep)\b.*)$", RegexOptions.IgnoreCase)]
    private static partial Regex Order();

    // Else what must hold says enough: "...; it must be 1 to 8.", "... needs path_length_mm."
    [GeneratedRegex(@"(?<cure>\b(?:(?:it|its ends|both|they|lines|the [a-z ]+) )?(?:must|may be at most|needs?|keys stand under|bosflow [-a-z]+ (?:says|lists))\b.*)$")]
    private static partial Regex Demand();
}
