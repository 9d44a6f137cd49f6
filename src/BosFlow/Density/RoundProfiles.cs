namespace BosFlow.Density;

/// <summary>Collects the uncertainties of all radial profiles and makes the result's profiles of them.</summary>
internal sealed class RoundProfiles
{
    private readonly AxisFrame axis;
    private readonly StationLayout layout;
    private readonly DensityConversion conversion;
    private readonly UnitProfile?[] profiles;
    private readonly StateField?[] states;

    private RoundProfiles(AxisFrame axis, StationLayout layout, DensityConversion conversion, UnitProfile?[] profiles)
    {
        this.axis = axis;
        this.layout = layout;
        this.conversion = conversion;
        this.profiles = profiles;
        states = [.. profiles.Select(profile => profile is null ? null : new StateField(conversion, profile.Excess, profile.Sigma))];
    }

    /// <summary>Starts with the uncertainty from the displacement.</summary>
    public static RoundProfiles Of(AxisFrame axis, StationLayout layout, DensityConversion conversion, UnitProfile?[] profiles) => new(axis, layout, conversion, profiles);

    /// <summary>Adds a source that changes the conversion.</summary>
    /// <param name="source">What it is.</param>
    /// <param name="input">Value and uncertainty with units.</param>
    /// <param name="raised">The conversion with it raised; null where no uncertainty is stated.</param>
    /// <param name="share">Factor on the index excess that goes with it.</param>
    public void Add(string source, string input, DensityConversion? raised, double share)
    {
        for (int station = 0; station < states.Length; station++)
            states[station]?.Add(source, input, raised is null ? null : [.. profiles[station]!.Excess.Select(value => raised.At(value * share))]);
    }

    /// <summary>Adds a source that changes the profiles.</summary>
    /// <param name="source">What it is.</param>
    /// <param name="input">Value and uncertainty with units.</param>
    /// <param name="other">Index excess of all stations with it raised.</param>
    public void AddMoved(string source, string input, double[]?[] other)
    {
        for (int station = 0; station < states.Length; station++)
        {
            if (states[station] is not { } state)
                continue;
            double[] own = profiles[station]!.Excess;
            state.Add(source, input, [.. (other[station] ?? own).Select(conversion.At)]);
        }
    }

    /// <summary>The profiles with all contributions.</summary>
    public IReadOnlyList<RadialProfile> ToProfiles() =>
        [.. Enumerable.Range(0, profiles.Length).Where(station => profiles[station] is not null).Select(Profile)];

    private RadialProfile Profile(int station)
    {
        UnitProfile unit = profiles[station]!;
        StateField state = states[station]!;
        int[] radii = [.. Enumerable.Range(0, unit.Excess.Length)];
        (double x, double y) = axis.Place(unit.Along, 0);
        return new RadialProfile
        {
            Station = station,
            AxialMetres = (unit.Along - layout.First) * conversion.FlowMetresPerPixel,
            AxisX = x,
            AxisY = y,
            RadiusMetres = [.. radii.Select(i => i * layout.RadialStepMetres)],
            Density = [.. state.States.Select(s => s.DensityKgM3)],
            SigmaDensity = [.. radii.Select(state.SigmaDensity)],
            SigmaDensityRandom = [.. state.SigmaRandom],
            Temperature = [.. state.States.Select(s => s.TemperatureKelvin)],
            SigmaTemperature = [.. radii.Select(state.SigmaTemperature)],
            DensityLeft = [.. unit.Left.Select(value => conversion.At(value).DensityKgM3)],
            DensityRight = [.. unit.Right.Select(value => conversion.At(value).DensityKgM3)],
            Flags = [.. unit.Flags.Select((flag, i) => state.States[i].DensityKgM3 <= 0 ? flag | DensityFlags.NotPositive : flag)],
        };
    }
}
