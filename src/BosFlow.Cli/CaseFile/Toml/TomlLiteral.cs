using System.Globalization;

namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>Writes values the way they are typed in a TOML file.</summary>
internal static class TomlLiteral
{
    /// <summary>A text in quotation marks.</summary>
    /// <param name="text">Any text without line breaks.</param>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return "\"" + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";
    }

    /// <summary>A number, in the shortest form that reads back to the same value.</summary>
    /// <param name="number">A finite number.</param>
    public static string Of(double number)
    {
        string text = number.ToString("R", CultureInfo.InvariantCulture).Replace("E-0", "e-", StringComparison.Ordinal).Replace('E', 'e');
        return text.AsSpan().IndexOfAny('.', 'e') < 0 ? text + ".0" : text;
    }

    /// <summary>A whole number.</summary>
    /// <param name="number">The number.</param>
    public static string Of(long number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>A truth value.</summary>
    /// <param name="truth">The value.</param>
    public static string Of(bool truth) => truth ? "true" : "false";
}
