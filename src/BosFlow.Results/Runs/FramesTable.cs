using System.Globalization;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.Files;

namespace BosFlow.Results.Runs;

/// <summary>frames.csv: one line a frame, units in the names of the columns; numbers read back exactly.</summary>
internal static class FramesTable
{
    // Between the warnings of one frame; they are sentences and do not hold it.
    private const string WarningSeparator = " | ";

    private static readonly string[] Columns =
    [
        "frame", "time_s", "shake_u_px", "shake_v_px", "shake_rotation_deg", "shake_scale", "noise_floor_u_px", "noise_floor_v_px", "sigma_factor_u", "sigma_factor_v", "valid_fraction", "mean_level_dn",
        "saturated_fraction", "light_gain", "light_lowest_part", "light_highest_part", "glare_fraction", "low_texture_fraction", "h11", "h12", "h13_px", "h21", "h22", "h23_px", "h31_per_px", "h32_per_px", "source", "failure", "rejection", "warnings",
    ];

    public static void Write(Stream stream, IReadOnlyList<FrameRecord> frames, int width, int height)
    {
        using var text = new StreamWriter(stream, leaveOpen: true) { NewLine = "\n" };
        text.WriteLine(CsvLine.Join(Columns));
        foreach (FrameRecord frame in frames)
            text.WriteLine(CsvLine.Join(Values(frame, Shake.Of(frame.Motion, width, height))));
    }

    public static IReadOnlyList<FrameRecord> Read(string path)
    {
        try
        {
            OrdinaryFile.Require(path);
            string[] lines = File.ReadAllLines(path);
            if (lines.Length == 0 || lines[0] != CsvLine.Join(Columns))
                throw new InputDataException($"{path} has other columns than this program writes; it was changed or is of another version, so run the case again to have it written anew.");
            return [.. lines.Skip(1).Select(Record)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException or OverflowException or ArgumentOutOfRangeException)
        {
            throw new InputDataException($"{path} cannot be read ({e.Message}); run the case again to have it written anew.", e);
        }
    }

    private static IEnumerable<string> Values(FrameRecord f, Shake shake)
    {
        PlanarMotion m = f.Motion;
        yield return f.Index.ToString(CultureInfo.InvariantCulture);
        foreach (double value in new[]
        {
            f.TimeSeconds, shake.U, shake.V, shake.RotationDegrees, shake.Scale, f.NoiseFloorU, f.NoiseFloorV, f.SigmaFactorU, f.SigmaFactorV, f.ValidFraction, f.MeanLevel, f.SaturatedFraction,
            f.Light.Gain, f.Light.LowestShare, f.Light.HighestShare, f.GlareFraction, f.LowTextureFraction,
            m.H11, m.H12, m.H13, m.H21, m.H22, m.H23, m.H31, m.H32,
        })
            yield return value.ToString("R", CultureInfo.InvariantCulture);
        yield return f.Source;
        yield return f.Failure ?? string.Empty;
        yield return f.Rejection ?? string.Empty;
        yield return string.Join(WarningSeparator, f.Warnings);
    }

    private static FrameRecord Record(string line)
    {
        List<string> v = CsvLine.Split(line);
        if (v.Count != Columns.Length)
            throw new FormatException($"a line has {v.Count} values instead of {Columns.Length}");
        double[] n = [.. v.Skip(1).Take(25).Select(text => double.Parse(text, CultureInfo.InvariantCulture))];
        return new FrameRecord(
            int.Parse(v[0], CultureInfo.InvariantCulture), n[0], v[26], new PlanarMotion(n[17], n[18], n[19], n[20], n[21], n[22], n[23], n[24]),
            n[5], n[6], n[9], n[10], n[11], v[27].Length == 0 ? null : v[27], v[29].Length == 0 ? [] : v[29].Split(WarningSeparator))
        {
            Rejection = v[28].Length == 0 ? null : v[28],
            SigmaFactorU = n[7],
            SigmaFactorV = n[8],
            Light = new LightComparison(n[12], n[13], n[14]),
            GlareFraction = n[15],
            LowTextureFraction = n[16],
        };
    }
}
