namespace BosFlow.Synthesis;

/// <summary>Which flow a scene has; one of the nested kinds.</summary>
public abstract record FlowRecipe
{
    private FlowRecipe()
    {
    }

    /// <summary>Makes the field for a camera.</summary>
    /// <param name="view">The camera; null where the scene has no rig.</param>
    /// <param name="gas">Conversion of temperature to index for the hot jet; null where the scene has no rig.</param>
    /// <returns>The field.</returns>
    /// <exception cref="ConfigurationException">The kind needs a rig, or a value is out of range.</exception>
    internal abstract IFlowField Build(ViewGeometry? view, SceneGas? gas);

    private static ViewGeometry Needed(ViewGeometry? view) =>
        view ?? throw new ConfigurationException(["A hot jet, a lens and a wedge need a rig: give the distances and the scale."]);

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
            FocalLengthMetres != 0 ? new WeakLensField(Needed(view), FocalLengthMetres) : throw new ConfigurationException(["The focal length of the lens is 0."]);
    }

    /// <summary>A thin wedge of glass in the flow plane.</summary>
    /// <param name="GlassIndex">Index relative to the gas, 1.</param>
    /// <param name="ApexDegrees">Apex angle, degrees.</param>
    /// <param name="ThickSideDegrees">Direction of the thick side, degrees counter-clockwise as seen.</param>
    public sealed record Wedge(double GlassIndex, double ApexDegrees, double ThickSideDegrees) : FlowRecipe
    {
        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas) => new WedgeField(Needed(view), GlassIndex, ApexDegrees, ThickSideDegrees);
    }

    /// <summary>A free jet of hot gas, ray-traced.</summary>
    /// <param name="NozzleX">x of the nozzle in the picture, px; may lie outside.</param>
    /// <param name="NozzleY">y of the nozzle, px.</param>
    /// <param name="DirectionDegrees">Direction, degrees counter-clockwise as seen; 90 = upward.</param>
    /// <param name="HalfWidthMetres">1/e half-width at the nozzle, m, greater than 0.</param>
    /// <param name="Growth">Growth of the half-width along the axis, m/m, 0 to 1.</param>
    /// <param name="TemperatureKelvin">Temperature on the axis at the nozzle, K, greater than 0.</param>
    public sealed record Jet(double NozzleX, double NozzleY, double DirectionDegrees, double HalfWidthMetres, double Growth, double TemperatureKelvin) : FlowRecipe
    {
        /// <summary>The jet in the camera's axes.</summary>
        /// <param name="view">The camera.</param>
        /// <param name="gas">Index of the hot gas.</param>
        internal HotJet InView(ViewGeometry view, SceneGas gas)
        {
            (double x, double y) = view.OnFlowPlane(NozzleX, NozzleY);
            return new HotJet(x, y, view.LensToFlowMetres, DirectionDegrees, HalfWidthMetres, Growth, gas.IndexExcess(TemperatureKelvin));
        }

        internal override IFlowField Build(ViewGeometry? view, SceneGas? gas)
        {
            ViewGeometry camera = Needed(view);
            if (!(HalfWidthMetres > 0 && Growth is >= 0 and <= 1 && TemperatureKelvin > 0))
                throw new ConfigurationException([FormattableString.Invariant($"A jet needs a half-width above 0 (given {HalfWidthMetres * 1e3} mm), a growth of 0 to 1 (given {Growth}) and a temperature above 0 K (given {TemperatureKelvin} K).")]);
            HotJet jet = InView(camera, gas!);
            RequireOriginOutOfSight(camera, jet);
            return new TracedJetField(camera, jet);
        }

        /// <summary>The model has no nozzle: it narrows to a point behind it, and that point must not be in the picture or its margin.</summary>
        private static void RequireOriginOutOfSight(ViewGeometry view, HotJet jet)
        {
            foreach (double x in (double[])[-0.15, 2.15])
            {
                foreach (double y in (double[])[-0.15, 2.15])
                {
                    (double flowX, double flowY) = view.OnFlowPlane(x * view.CentreX, y * view.CentreY);
                    if (jet.HalfWidthAt(jet.Split(flowX, flowY).Along) < 0.3 * jet.HalfWidth)
                        throw new ConfigurationException(["The jet narrows to a point within the picture; put its nozzle nearer to the edge of the picture, or make it wider or its growth smaller."]);
                }
            }
        }
    }
}
