using BosFlow.Density;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>
/// Radial profiles as variables over station and radius, and back. All profiles share their radii but may end at
/// different ones: a shorter profile is filled with NaN, and radius_count says where it ends.
/// </summary>
internal static class ProfileVariables
{
    private const string FlagName = "profile_flag";
    private const string CountName = "radius_count";
    private static readonly string[] Dimensions = ["station", "radius"];
    private static readonly NetCdfAttribute Places = new("coordinates", "station_axial station_axial_mm station_x station_y radius_mm");

    private static readonly (string Name, string Unit, string Title, Func<RadialProfile, double[]> Values)[] Quantities =
    [
        ("profile_density", "kg m-3", "density", p => p.Density),
        ("sigma_profile_density", "kg m-3", "standard uncertainty of profile_density, all contributions", p => p.SigmaDensity),
        ("sigma_random_profile_density", "kg m-3", "part of sigma_profile_density that comes from the measured displacement", p => p.SigmaDensityRandom),
        ("profile_temperature", "K", "temperature", p => p.Temperature),
        ("sigma_profile_temperature", "K", "standard uncertainty of profile_temperature", p => p.SigmaTemperature),
        ("profile_density_left", "kg m-3", "density from the half on the left when looking along the axis", p => p.DensityLeft),
        ("profile_density_right", "kg m-3", "density from the half on the right when looking along the axis", p => p.DensityRight),
    ];

    public static IEnumerable<NetCdfVariable> Of(IReadOnlyList<RadialProfile> profiles)
    {
        if (profiles.Count == 0)
            yield break;
        double[] radii = Radii(profiles);
        yield return Along("station", "station", "1", "number of the station along the axis", profiles.Select(p => p.Station).ToArray());
        yield return Along("station_axial", "station", "m", "position along the axis from its start, in the plane of the flow", profiles.Select(p => p.AxialMetres).ToArray());
        yield return Along("station_axial_mm", "station", "mm", "position along the axis from its start, in the plane of the flow", profiles.Select(p => p.AxialMetres * 1000).ToArray());
        yield return Along("station_x", "station", "px", "station on the axis, right of the first column of the reference picture", profiles.Select(p => p.AxisX).ToArray());
        yield return Along("station_y", "station", "px", "station on the axis, below the first row of the reference picture", profiles.Select(p => p.AxisY).ToArray());
        yield return Along(CountName, "station", "1", "number of radii of the profile", profiles.Select(p => p.RadiusMetres.Length).ToArray());
        yield return Along("radius", "radius", "m", "distance from the axis", radii);
        yield return Along("radius_mm", "radius", "mm", "distance from the axis", radii.Select(r => r * 1000).ToArray());
        foreach ((string name, string unit, string title, Func<RadialProfile, double[]> values) in Quantities)
            yield return Over(name, unit, title, profiles.SelectMany(p => Padded(values(p), p, radii.Length, double.NaN)).ToArray(), Places);
        yield return Over(
            FlagName, null, "why a density is not a plain result, 0 = determined",
            profiles.SelectMany(p => Padded([.. p.Flags.Select(f => (byte)f)], p, radii.Length, (byte)DensityFlags.NotMeasured)).ToArray(), [.. GridVariables.BitNames(GridVariables.DensityBits), Places]);
    }

    public static IReadOnlyList<RadialProfile> Read(NetCdfContent content)
    {
        if (content.Variables.All(v => v.Name != FlagName))
            return [];
        int[] stations = content.Values<int>("station");
        int[] counts = content.Values<int>(CountName);
        double[] radii = content.Values<double>("radius");
        double[] axial = content.Values<double>("station_axial");
        double[] x = content.Values<double>("station_x");
        double[] y = content.Values<double>("station_y");
        double[][] values = [.. Quantities.Select(q => content.Values<double>(q.Name))];
        byte[] flags = content.Values<byte>(FlagName);
        return
        [
            .. Enumerable.Range(0, stations.Length).Select(i => new RadialProfile
            {
                Station = stations[i],
                AxialMetres = axial[i],
                AxisX = x[i],
                AxisY = y[i],
                RadiusMetres = radii[..counts[i]],
                Density = Row(values[0], i),
                SigmaDensity = Row(values[1], i),
                SigmaDensityRandom = Row(values[2], i),
                Temperature = Row(values[3], i),
                SigmaTemperature = Row(values[4], i),
                DensityLeft = Row(values[5], i),
                DensityRight = Row(values[6], i),
                Flags = [.. Row(flags, i).Select(value => (DensityFlags)value)],
            }),
        ];

        T[] Row<T>(T[] all, int station) => all[(station * radii.Length)..((station * radii.Length) + counts[station])];
    }

    private static double[] Radii(IReadOnlyList<RadialProfile> profiles)
    {
        double[] longest = profiles.MaxBy(p => p.RadiusMetres.Length)!.RadiusMetres;
        if (profiles.Any(p => !p.RadiusMetres.AsSpan().SequenceEqual(longest.AsSpan(0, p.RadiusMetres.Length))))
            throw new ArgumentException("The profiles do not share their radii.", nameof(profiles));
        // A dimension of a file has a length: profiles without a single radius still have the axis.
        return longest.Length > 0 ? longest : [0];
    }

    private static IEnumerable<T> Padded<T>(T[] values, RadialProfile profile, int length, T filling) => values.Length == profile.RadiusMetres.Length
        ? values.Concat(Enumerable.Repeat(filling, length - values.Length))
        : throw new ArgumentException($"The profile of station {profile.Station} has {values.Length} values for {profile.RadiusMetres.Length} radii.", nameof(profile));

    private static NetCdfVariable Along(string name, string dimension, string unit, string title, Array values) =>
        new() { Name = name, Dimensions = [dimension], Data = values, Unit = unit, LongName = title };

    private static NetCdfVariable Over(string name, string? unit, string title, Array values, params IReadOnlyList<NetCdfAttribute> attributes) =>
        new() { Name = name, Dimensions = Dimensions, Data = values, Unit = unit, LongName = title, Attributes = attributes };
}
