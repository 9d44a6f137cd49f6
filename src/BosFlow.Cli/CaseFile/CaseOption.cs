using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile;

/// <summary>Names of the options that stand for keys of the case file.</summary>
internal static class CaseOption
{
    // Where the name of a key says too little without the heading of its section.
    private static readonly Dictionary<string, string> Special = new(StringComparer.Ordinal)
    {
        ["gas.name"] = "--gas",
        ["expected.kind"] = "--expected",
        ["board.width_mm"] = "--board-width-mm",
        ["board.height_mm"] = "--board-height-mm",
        ["board.depth_mm"] = "--board-depth-mm",
    };

    /// <summary>The option of a key: its name with dashes, unless it says too little without its section.</summary>
    /// <param name="key">Declaration of the key.</param>
    public static string NameOf(CaseKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return Special.TryGetValue(key.FullName, out string? special) ? special : "--" + key.Name.Replace('_', '-');
    }
}
