using System.Globalization;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile;

/// <summary>Reads the value of a key as it is typed on the command line, where numbers and words stand without brackets and quotation marks.</summary>
internal static class OptionText
{
    /// <summary>Reads and checks a value.</summary>
    /// <param name="key">Declaration of the key.</param>
    /// <param name="typed">The value as typed.</param>
    /// <param name="problem">Why it cannot be used, without the option's name; null where it can.</param>
    /// <returns>The value; null where it cannot be used.</returns>
    public static object? Read(CaseKey key, string typed, out string? problem)
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(typed);
        string text = typed.Trim();
        bool isNumber = key is NumberKey or IntegerKey;
        if (isNumber && !TryNumber(text, out _))
        {
            problem = NoNumber(key, text);
            return null;
        }

        TomlNode node = key switch
        {
            NumberListKey => List(text),
            _ when isNumber => Number(text),
            _ => new TomlNode(TomlKind.Text, text, text, 0),
        };
        return key.Read(node, out problem);
    }

    private static TomlNode List(string text) =>
        new(TomlKind.List, text.Trim('[', ']').Split(',', StringSplitOptions.TrimEntries).Select(Number).ToArray(), text, 0);

    private static TomlNode Number(string text)
    {
        if (long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long whole))
            return new TomlNode(TomlKind.Integer, whole, text, 0);
        return TryNumber(text, out double number) ? new TomlNode(TomlKind.Number, number, text, 0) : new TomlNode(TomlKind.Text, text, text, 0);
    }

    private static bool TryNumber(string text, out double number) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out number);

    // "16mm", "1.6 cm" and "1,6" are what people type; each gets told what was meant.
    private static string NoNumber(CaseKey key, string text)
    {
        string wish = $"give {key.Allowed}";
        if (text.Count(letter => letter == ',') == 1 && TryNumber(text.Replace(',', '.'), out double comma))
            return string.Create(CultureInfo.InvariantCulture, $"has a comma; decimals stand behind a point, so write {comma:G10}.");
        string digits = new([.. text.TakeWhile(letter => char.IsAsciiDigit(letter) || letter is '.' or '-' or '+')]);
        string rest = text[digits.Length..].Trim().ToLowerInvariant();
        if (!TryNumber(digits, out double number) || UnitSuffix.OfKey(key.Name) is not { } wanted || UnitSuffix.OfKey("x_" + rest) is not { } typed)
            return $"is no number; {wish}.";
        return typed.To(wanted, number) is { } converted
            ? string.Create(CultureInfo.InvariantCulture, $"carries its unit, which the name of the option gives; write {converted:G10} for {wanted.Words}.")
            : $"is in {typed.Words}; {wish}, without a unit.";
    }
}
