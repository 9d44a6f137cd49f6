using System.Globalization;

namespace BosFlow.Cli.Running;

/// <summary>An amount of memory or disk, as people say it and as they type it.</summary>
internal static class ByteText
{
    /// <summary>How to type an amount, in words.</summary>
    public const string InWords = "a number with its unit, such as 4GiB, 800MiB or 2.5GB (kB, MB, GB, TB are powers of 1000; KiB, MiB, GiB, TiB of 1024)";

    private static readonly (string Unit, double Bytes)[] Units =
    [
        ("KIB", 1024), ("MIB", 1024.0 * 1024), ("GIB", 1024.0 * 1024 * 1024), ("TIB", 1024.0 * 1024 * 1024 * 1024),
        ("KB", 1e3), ("MB", 1e6), ("GB", 1e9), ("TB", 1e12), ("K", 1024), ("M", 1024.0 * 1024), ("G", 1024.0 * 1024 * 1024), ("T", 1024.0 * 1024 * 1024 * 1024),
    ];

    /// <summary>Disk room in powers of 1000, as disks are sold.</summary>
    /// <param name="bytes">The amount.</param>
    public static string Disk(long bytes) => bytes switch
    {
        >= 1_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.0} GB"),
        >= 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(bytes / 1e3):0} kB"),
    };

    /// <summary>Memory in powers of 1024.</summary>
    /// <param name="bytes">The amount.</param>
    public static string Memory(long bytes) => bytes >= 1L << 30
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / (double)(1L << 30):0.0} GiB")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(bytes / (double)(1L << 20)):0} MiB");

    /// <summary>Reads an amount; a number without unit is none.</summary>
    /// <param name="text">The text as typed.</param>
    /// <returns>Bytes; null where the text is no amount.</returns>
    public static long? TryRead(string text)
    {
        string upper = text.Trim().ToUpperInvariant();
        foreach ((string unit, double bytes) in Units)
        {
            if (upper.EndsWith(unit, StringComparison.Ordinal) &&
                double.TryParse(upper.AsSpan(0, upper.Length - unit.Length), NumberStyles.AllowDecimalPoint | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out double number) &&
                number > 0 && number * bytes < long.MaxValue)
            {
                return (long)(number * bytes);
            }
        }

        return null;
    }
}
