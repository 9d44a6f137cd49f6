using System.Text;
using System.Text.RegularExpressions;

namespace BosFlow.ForeignBytes.Mutation;

/// <summary>Changes text word by word and line by line, so that it stays text and reaches what lies behind the grammar.</summary>
internal static partial class TextMutator
{
    private static readonly string[] Numbers =
        ["-1", "0", "-0.0", "1", "1e308", "-1e308", "1e400", "1e-320", "nan", "inf", "-inf", "NaN", "2147483647", "2147483648", "-2147483649", "9223372036854775807", "9223372036854775808", "99999999999999999999999", "0x7f", "1_000", "0.1"];

    private static readonly string[] Words =
        ["true", "null", "[]", "{}", "\"\"", "''", "\"../../etc\"", "\"/dev/zero\"", "\"\\u0000\"", "\"\\ud800\"", "1979-05-27T07:32:00Z", "\u202E", "\uFEFF", "\u00e9\u0301", "\U0001F4A5", "\0", "\n", ",", "=", "[[x]]", "a.b.c = 1", "\"\"\"", "#", "\r"];

    /// <summary>One random change.</summary>
    public static string Change(string text, Random random) => random.Next(8) switch
    {
        0 or 1 => Replace(text, NumberToken(), Numbers[random.Next(Numbers.Length)], random),
        2 => Replace(text, Token(), Words[random.Next(Words.Length)], random),
        3 => Replace(text, Token(), Token().Matches(text) is { Count: > 0 } tokens ? tokens[random.Next(tokens.Count)].Value : "x", random),
        4 => Lines(text, random, (line, _) => []),
        5 => Lines(text, random, (line, other) => [line, other]),
        6 => Replace(text, Token(), new string(random.Next(2) == 0 ? '[' : '{', 1 << random.Next(17)), random),
        _ => text.Insert(random.Next(text.Length + 1), Words[random.Next(Words.Length)]),
    };

    /// <summary>One random change of text that is given as UTF-8.</summary>
    public static byte[] Change(byte[] bytes, Random random) => Encoding.UTF8.GetBytes(Change(Encoding.UTF8.GetString(bytes), random));

    private static string Replace(string text, Regex what, string by, Random random)
    {
        MatchCollection found = what.Matches(text);
        if (found.Count == 0)
            return text + by;
        Match one = found[random.Next(found.Count)];
        return string.Concat(text.AsSpan(0, one.Index), by, text.AsSpan(one.Index + one.Length));
    }

    private static string Lines(string text, Random random, Func<string, string, string[]> change)
    {
        string[] lines = text.Split('\n');
        int at = random.Next(lines.Length);
        return string.Join('\n', [.. lines[..at], .. change(lines[at], lines[random.Next(lines.Length)]), .. lines[(at + 1)..]]);
    }

    [GeneratedRegex(@"-?\d+(\.\d+)?(e-?\d+)?")]
    private static partial Regex NumberToken();

    [GeneratedRegex("\"[^\"\\n]*\"|[\\w.+-]+|[\\[\\]{}=,:]")]
    private static partial Regex Token();
}
