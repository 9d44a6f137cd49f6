namespace BosFlow.Synthesis;

public abstract partial record FlowRecipe
{
    /// <summary>Gas between two planes square to the optical axis, of a density that grows linearly across the picture and is the ambient one in its middle.</summary>
    /// <param name="GradientKgM4">Density gradient, kg/m4, not negative.</param>
    /// <param name="DirectionDegrees">Direction towards the denser side, degrees counter-clockwise as seen.</param>
    /// <param name="LengthMetres">Length along the line of sight, m, greater than 0.</param>
    public sealed record SlabGradient(double GradientKgM4, double DirectionDegrees, double LengthMetres) : FlowRecipe
    {
        /// <inheritdoc/>
        public override double? PathLengthMetres => LengthMetres;

        internal override IIndexField Medium(ViewGeometry view, SceneGas gas)
        {
            RequireOneGas(gas);
            (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(DirectionDegrees));
            var profile = new LinearDensity(GradientKgM4 * cosine, -GradientKgM4 * sine);
            // The margin of the pattern reaches some percent beyond the picture.
            (double x, double y) = view.OnFlowPlane(2.3 * view.CentreX, 2.3 * view.CentreY);
            double lowest = gas.AmbientDensityKgM3 - (Math.Abs(profile.GradientX) * x) - (Math.Abs(profile.GradientY) * y);
            if (!(GradientKgM4 >= 0 && lowest > 0))
                throw new ConfigurationException([FormattableString.Invariant($"A density gradient of {GradientKgM4} kg/m4 takes the density from {gas.AmbientDensityKgM3:G4} kg/m3 in the middle to {lowest:G4} kg/m3 at the edge of the picture; it must be at least 0 and leave the density above 0.")]);
            return Slab(view, gas, LengthMetres, profile);
        }
    }

    /// <summary>A Gaussian stripe of hot or cold gas at ambient pressure between two planes square to the optical axis.</summary>
    /// <param name="CentreX">Column of a point on its middle line, px; may lie outside the picture.</param>
    /// <param name="CentreY">Row of that point, px.</param>
    /// <param name="DirectionDegrees">Direction of its middle line, degrees counter-clockwise as seen.</param>
    /// <param name="HalfWidthMetres">Distance from the middle line at which the difference of density is down to 1/e, m, greater than 0.</param>
    /// <param name="TemperatureKelvin">Temperature on the middle line, K, greater than 0.</param>
    /// <param name="LengthMetres">Length along the line of sight, m, greater than 0.</param>
    public sealed record SlabStripe(double CentreX, double CentreY, double DirectionDegrees, double HalfWidthMetres, double TemperatureKelvin, double LengthMetres) : FlowRecipe
    {
        /// <inheritdoc/>
        public override double? PathLengthMetres => LengthMetres;

        /// <inheritdoc/>
        public override double? SourceTemperatureKelvin => TemperatureKelvin;

        internal override IIndexField Medium(ViewGeometry view, SceneGas gas) =>
            Slab(view, gas, LengthMetres, Gaussian(view, gas, CentreX, CentreY, HalfWidthMetres, TemperatureKelvin, DirectionDegrees));

        internal override IReadOnlyList<(double X, double Y)> Outline(ViewGeometry view, SceneGas gas)
        {
            (double x, double y) = view.OnFlowPlane(CentreX, CentreY);
            return OutlineShapes.Strip(view, x, y, DirectionDegrees, _ => OutlineShapes.GaussianReach * HalfWidthMetres);
        }

        internal override IReadOnlyList<HalfPlane> CalmSides(ViewGeometry view)
        {
            (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(DirectionDegrees));
            double reach = OutlineShapes.GaussianReach * HalfWidthMetres / view.FlowMetresPerPixel;
            // Both normals of the middle line, which runs along (cosine, -sine) as y is down.
            return [new HalfPlane(CentreX, CentreY, sine, cosine).Moved(reach), new HalfPlane(CentreX, CentreY, -sine, -cosine).Moved(reach)];
        }
    }

    /// <summary>A round Gaussian blob of hot or cold gas at ambient pressure between two planes square to the optical axis.</summary>
    /// <param name="CentreX">Column of its centre, px.</param>
    /// <param name="CentreY">Row of its centre, px.</param>
    /// <param name="HalfWidthMetres">Distance from the centre at which the difference of density is down to 1/e, m, greater than 0.</param>
    /// <param name="TemperatureKelvin">Temperature in the centre, K, greater than 0.</param>
    /// <param name="LengthMetres">Length along the line of sight, m, greater than 0.</param>
    public sealed record SlabBlob(double CentreX, double CentreY, double HalfWidthMetres, double TemperatureKelvin, double LengthMetres) : FlowRecipe
    {
        /// <inheritdoc/>
        public override double? PathLengthMetres => LengthMetres;

        /// <inheritdoc/>
        public override double? SourceTemperatureKelvin => TemperatureKelvin;

        internal override IIndexField Medium(ViewGeometry view, SceneGas gas) =>
            Slab(view, gas, LengthMetres, Gaussian(view, gas, CentreX, CentreY, HalfWidthMetres, TemperatureKelvin, null));

        internal override IReadOnlyList<(double X, double Y)> Outline(ViewGeometry view, SceneGas gas)
        {
            (double x, double y) = view.OnFlowPlane(CentreX, CentreY);
            return OutlineShapes.Disc(view, x, y, OutlineShapes.GaussianReach * HalfWidthMetres);
        }
    }

    private static GaussianDensity Gaussian(ViewGeometry view, SceneGas gas, double centreX, double centreY, double halfWidth, double temperature, double? stripeDegrees)
    {
        if (!(halfWidth > 0 && temperature > 0))
            throw new ConfigurationException([FormattableString.Invariant($"A stripe or blob needs a half-width above 0 (given {halfWidth * 1e3} mm) and a temperature above 0 K (given {temperature} K).")]);
        (double x, double y) = view.OnFlowPlane(centreX, centreY);
        // The profile is that of the index; in one gas the density has the same.
        return new GaussianDensity(x, y, halfWidth, gas.IndexExcess(temperature) / gas.GladstoneDaleM3PerKg, stripeDegrees);
    }

    private static void RequireOneGas(SceneGas gas)
    {
        if (!gas.IsOneGas)
            throw new ConfigurationException(["A linear density and a shock are of one gas, but the gas of the flow is not that around it; give one gas, or another kind of flow."]);
    }

    private static DensitySlab Slab(ViewGeometry view, SceneGas gas, double length, IDensityProfile profile)
    {
        double longest = 2 * Math.Min(view.LensToFlowMetres, view.BackgroundDistanceMetres - view.LensToFlowMetres);
        if (!(length > 0 && length < longest))
            throw new ConfigurationException([FormattableString.Invariant($"The flow is {length * 1e3} mm long along the line of sight; it must be more than 0 and, to fit between lens and background about its middle, less than {longest * 1e3} mm.")]);
        return new DensitySlab(view.LensToFlowMetres, length, gas.GladstoneDaleM3PerKg, profile);
    }
}
