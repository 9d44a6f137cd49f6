using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks;

/// <summary>What the user asked for.</summary>
/// <param name="Large">Whether 3840 x 2160 is measured too.</param>
/// <param name="Rounds">Number of timed rounds; the median of them is reported.</param>
/// <param name="Output">File of the report.</param>
internal sealed record MeasurementOptions(bool Large, int Rounds, string Output)
{
    public static bool TryParse(string[] args, string fileName, [NotNullWhen(true)] out MeasurementOptions? options)
    {
        options = new MeasurementOptions(false, 5, Repository.PathOf("docs", "validation", fileName));
        for (int i = 0; i < args.Length; i++)
        {
            string? value = i + 1 < args.Length ? args[i + 1] : null;
            if (args[i] == "--large")
            {
                options = options with { Large = true };
            }
            else if (args[i] == "--rounds" && int.TryParse(value, CultureInfo.InvariantCulture, out int rounds) && rounds > 0)
            {
                options = options with { Rounds = rounds };
                i++;
            }
            else if (args[i] == "--output" && value is not null)
            {
                options = options with { Output = Path.GetFullPath(value) };
                i++;
            }
            else
            {
                options = null;
                return false;
            }
        }

        return true;
    }
}
