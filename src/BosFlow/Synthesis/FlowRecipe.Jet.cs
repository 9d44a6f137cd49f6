namespace BosFlow.Synthesis;

public abstract partial record FlowRecipe
{
    /// <summary>A free jet of hot gas, ray-traced.</summary>
    /// <param name="NozzleX">x of the nozzle in the picture, px; may lie outside.</param>
    /// <param name="NozzleY">y of the nozzle, px.</param>
    /// <param name="DirectionDegrees">Direction, degrees counter-clockwise as seen; 90 = upward.</param>
    /// <param name="HalfWidthMetres">1/e half-width at the nozzle, m, greater than 0.</param>
    /// <param name="Growth">Growth of the half-width along the axis, m/m, 0 to 1.</param>
    /// <param name="TemperatureKelvin">Temperature on the axis at the nozzle, K, greater than 0.</param>
    public sealed record Jet(double NozzleX, double NozzleY, double DirectionDegrees, double HalfWidthMetres, double Growth, double TemperatureKelvin) : FlowRecipe
    {
        /// <inheritdoc/>
        public override double? SourceTemperatureKelvin => TemperatureKelvin;

        /// <summary>The jet in the camera's axes.</summary>
        /// <param name="view">The camera.</param>
        /// <param name="gas">Index of the hot gas.</param>
        internal HotJet InView(ViewGeometry view, SceneGas gas)
        {
            (double x, double y) = view.OnFlowPlane(NozzleX, NozzleY);
            return new HotJet(x, y, view.LensToFlowMetres, DirectionDegrees, HalfWidthMetres, Growth, gas.IndexExcess(TemperatureKelvin));
        }

        internal override IIndexField Medium(ViewGeometry view, SceneGas gas)
        {
            if (!(HalfWidthMetres > 0 && Growth is >= 0 and <= 1 && TemperatureKelvin > 0))
                throw new ConfigurationException([FormattableString.Invariant($"A jet needs a half-width above 0 (given {HalfWidthMetres * 1e3} mm), a growth of 0 to 1 (given {Growth}) and a temperature above 0 K (given {TemperatureKelvin} K).")]);
            HotJet jet = InView(view, gas);
            RequireOriginOutOfSight(view, jet);
            return new JetIndexField(jet);
        }

        internal override IReadOnlyList<(double X, double Y)> Outline(ViewGeometry view, SceneGas gas)
        {
            HotJet jet = InView(view, gas);
            return OutlineShapes.Strip(view, jet.NozzleX, jet.NozzleY, DirectionDegrees, s => OutlineShapes.GaussianReach * jet.HalfWidthAt(s));
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
