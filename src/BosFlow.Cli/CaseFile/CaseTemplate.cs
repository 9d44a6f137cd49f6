using System.Globalization;
using System.Text;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.CaseFile;

/// <summary>Writes the commented case file of a new case from the declaration of the keys.</summary>
internal static class CaseTemplate
{
    /// <summary>Name of a case file in its folder.</summary>
    public const string FileName = "case.toml";

    private const int Width = 100;

    /// <summary>The text of a new case file.</summary>
    public static string Write()
    {
        var text = new StringBuilder();
        Comment(text, "BosFlow case file: one experiment - what was filmed, how, in which gas, and what is wanted.");
        Comment(text, "Text behind # is a comment. Keys that stand as comments show their default or an example: remove the # to set them.");
        Comment(text, "Every quantity names its unit at the end of its key. Paths are relative to this file. Check it with: bosflow run case.toml --dry-run");
        foreach (CaseSection section in CaseSections.All)
        {
            text.Append('\n');
            Comment(text, section.Description);
            text.Append('[').Append(section.Name).Append("]\n");
            foreach (CaseKey key in section.Keys.Where(key => !key.IsUncertainty))
            {
                if (section.IsListedBriefly)
                    WriteBriefly(text, key);
                else
                    Write(text, key);
            }

            WriteUncertainties(text, [.. section.Keys.Where(key => key.IsUncertainty)]);
        }

        return text.ToString();
    }

    private static void Write(StringBuilder text, CaseKey key)
    {
        text.Append('\n');
        Comment(text, key.Description);
        string allowed = $"Allowed: {key.Allowed}.";
        if (key is not TextKey and not TextListKey)
            Comment(text, key.Default is null ? allowed : $"{allowed} Default: {key.Default}.");
        string line = $"{key.Name} = {key.Example ?? key.Default}\n";
        text.Append(key.SetInNewCase ? line : "# " + line);
    }

    // They are for the uncertainty of the result alone, so a newcomer can pass them by: a line or two each.
    private static void WriteUncertainties(StringBuilder text, CaseKey[] keys)
    {
        if (keys.Length == 0)
            return;
        text.Append('\n');
        Comment(text, "Uncertainties (one sigma) of the values above, all optional: what is not stated counts as exact, unless its line tells a default.");
        foreach (CaseKey key in keys)
            WriteBriefly(text, key);
    }

    private static void WriteBriefly(StringBuilder text, CaseKey key)
    {
        Comment(text, key.Description);
        text.Append(CultureInfo.InvariantCulture, $"# {key.Name} = {key.Example ?? key.Default}\n");
    }

    private static void Comment(StringBuilder text, string words)
    {
        int length = 0;
        foreach (string word in words.Split(' '))
        {
            if (length > 0 && length + word.Length + 1 > Width)
            {
                text.Append('\n');
                length = 0;
            }

            text.Append(length == 0 ? "# " : " ").Append(word);
            length += word.Length + (length == 0 ? 2 : 1);
        }

        text.Append('\n');
    }
}
