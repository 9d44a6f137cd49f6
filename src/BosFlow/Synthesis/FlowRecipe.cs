namespace BosFlow.Synthesis;

/// <summary>Which flow a scene has; one of the nested kinds.</summary>
public abstract partial record FlowRecipe
{
    private FlowRecipe()
    {
    }

    /// <summary>Length of a flow that is the same along the line of sight, m; null for every other.</summary>
    public virtual double? PathLengthMetres => null;

    /// <summary>Whether the pressure in the flow is that of the surrounding gas, so that density and temperature tell each other.</summary>
    public virtual bool IsAtAmbientPressure => true;

    /// <summary>Temperature of the unmixed gas of the flow, K; null for the kinds that have none.</summary>
    public virtual double? SourceTemperatureKelvin => null;

    /// <summary>Makes the field for a camera.</summary>
    /// <param name="view">The camera; null where the scene has no rig.</param>
    /// <param name="gas">Conversion of temperature to index; null where the scene has no rig.</param>
    /// <returns>The field.</returns>
    /// <exception cref="ConfigurationException">The kind needs a rig, or a value is out of range.</exception>
    internal virtual IFlowField Build(ViewGeometry? view, SceneGas? gas) => new TracedField(Needed(view), Medium(Needed(view), gas!)!);

    /// <summary>The index of a gas flow in space, for tracing and for the true density.</summary>
    /// <param name="view">The camera.</param>
    /// <param name="gas">Conversion of temperature to index.</param>
    /// <returns>The field; null for the kinds that are no gas flow.</returns>
    /// <exception cref="ConfigurationException">A value is out of range.</exception>
    internal virtual IIndexField? Medium(ViewGeometry view, SceneGas gas) => null;

    /// <summary>Where the flow displaces dots, corners in px, not yet cut at the edges of the picture.</summary>
    /// <param name="view">The camera.</param>
    /// <param name="gas">Conversion of temperature to index.</param>
    /// <returns>The outline; null where the flow fills the picture.</returns>
    internal virtual IReadOnlyList<(double X, double Y)>? Outline(ViewGeometry view, SceneGas gas) => null;

    /// <summary>Half planes of the picture in which the gas is the surrounding one.</summary>
    /// <param name="view">The camera.</param>
    /// <returns>None where the flow has no straight edge.</returns>
    internal virtual IReadOnlyList<HalfPlane> CalmSides(ViewGeometry view) => [];

    private static ViewGeometry Needed(ViewGeometry? view) =>
        view ?? throw new ConfigurationException(["A flow of gas, a lens and a wedge need a rig: give the distances and the scale."]);

    /// <summary>The same displacement everywhere.</summary>
    /// <param name="U">To the right, px.</param>
    /// <param name="V">Down, px.</param>
    public sealed record Shift(double U, double V) : FlowRecipe
    {
        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas) => LinearField.Uniform(U, V);
    }

    /// <summary>A plane wave of displacement.</summary>
    /// <param name="Field">The wave.</param>
    public sealed record Wave(SinusoidField Field) : FlowRecipe
    {
        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas) =>
            Field.WavelengthPixels > 0 ? Field : throw new ConfigurationException([FormattableString.Invariant($"The wavelength is {Field.WavelengthPixels} px; it must be greater than 0.")]);
    }

    /// <summary>A linear displacement.</summary>
    /// <param name="Field">The field.</param>
    public sealed record Linear(LinearField Field) : FlowRecipe
    {
        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas) => Field;
    }

    /// <summary>A lens on the optical axis in the flow plane.</summary>
    /// <param name="FocalLengthMetres">Focal length, m; negative for a diverging lens; not 0.</param>
    public sealed record Lens(double FocalLengthMetres) : FlowRecipe
    {
        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas) =>
            FocalLengthMetres != 0 ? new WeakLensField(Needed(view), FocalLengthMetres) : throw new ConfigurationException(["The focal length of the lens is 0; give one that is not."]);
    }

    /// <summary>A thin wedge of glass in the flow plane.</summary>
    /// <param name="GlassIndex">Index relative to the gas, 1.</param>
    /// <param name="ApexDegrees">Apex angle, degrees.</param>
    /// <param name="ThickSideDegrees">Direction of the thick side, degrees counter-clockwise as seen.</param>
    public sealed record Wedge(double GlassIndex, double ApexDegrees, double ThickSideDegrees) : FlowRecipe
    {
        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas) => new WedgeField(Needed(view), GlassIndex, ApexDegrees, ThickSideDegrees);
    }
}
