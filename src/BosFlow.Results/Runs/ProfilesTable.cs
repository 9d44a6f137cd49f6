using System.Globalization;
using System.Text;
using BosFlow.Density;
using BosFlow.Results.Files;

namespace BosFlow.Results.Runs;

/// <summary>profiles.csv: one line a station and radius, for spreadsheets; seven significant digits (summary.nc has all of them).</summary>
internal static class ProfilesTable
{
    private static readonly string[] Columns =
    [
        "station", "axial_mm", "axis_x_px", "axis_y_px", "radius_mm", "density_kg_m3", "sigma_density_kg_m3", "sigma_random_density_kg_m3",
        "temperature_k", "sigma_temperature_k", "density_left_kg_m3", "density_right_kg_m3", "flags",
    ];

    public static string ToText(IReadOnlyList<RadialProfile> profiles)
    {
        var text = new StringBuilder();
        text.Append(CsvLine.Join(Columns)).Append('\n');
        foreach (RadialProfile profile in profiles)
        {
            for (int i = 0; i < profile.RadiusMetres.Length; i++)
                text.Append(CsvLine.Join(Values(profile, i))).Append('\n');
        }

        return text.ToString();
    }

    private static IEnumerable<string> Values(RadialProfile p, int i)
    {
        yield return p.Station.ToString(CultureInfo.InvariantCulture);
        foreach (double value in new[]
        {
            p.AxialMetres * 1000, p.AxisX, p.AxisY, p.RadiusMetres[i] * 1000, p.Density[i], p.SigmaDensity[i], p.SigmaDensityRandom[i],
            p.Temperature[i], p.SigmaTemperature[i], p.DensityLeft[i], p.DensityRight[i],
        })
            yield return value.ToString("G7", CultureInfo.InvariantCulture);
        yield return string.Join(' ', Enum.GetValues<DensityFlags>().Where(f => f != DensityFlags.None && p.Flags[i].HasFlag(f)).Select(FlagWords.Word));
    }
}
