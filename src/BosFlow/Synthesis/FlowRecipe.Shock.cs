namespace BosFlow.Synthesis;

public abstract partial record FlowRecipe
{
    /// <summary>The oblique shock of a wedge between two planes square to the optical axis; the oncoming gas has the ambient density.</summary>
    /// <param name="Mach">Mach number of the oncoming flow, greater than 1.</param>
    /// <param name="WedgeDegrees">Angle by which the wedge turns the flow, degrees, not 0; positive = counter-clockwise as seen.</param>
    /// <param name="DirectionDegrees">Direction of the oncoming flow, degrees counter-clockwise as seen.</param>
    /// <param name="PointX">Column of a point on the shock, px.</param>
    /// <param name="PointY">Row of that point, px.</param>
    /// <param name="ThicknessMetres">Jump of the density over its largest slope, m, greater than 0; see <see cref="ShockDensity"/>.</param>
    /// <param name="LengthMetres">Length along the line of sight, m, greater than 0.</param>
    public sealed record Shock(double Mach, double WedgeDegrees, double DirectionDegrees, double PointX, double PointY, double ThicknessMetres, double LengthMetres) : FlowRecipe
    {
        // At twice the thickness the slope of tanh is down to 0.13 % of its largest.
        private const double Reach = 2;

        /// <inheritdoc/>
        public override double? PathLengthMetres => LengthMetres;

        /// <inheritdoc/>
        public override bool IsAtAmbientPressure => false;

        /// <summary>The state behind the shock; air, ratio of specific heats 1.4.</summary>
        /// <exception cref="ConfigurationException">There is no such shock attached to a wedge.</exception>
        public ObliqueShock Behind() => ObliqueShock.Of(Mach, Math.Abs(WedgeDegrees));

        internal override IIndexField Medium(ViewGeometry view, SceneGas gas)
        {
            if (!(ThicknessMetres > 0))
                throw new ConfigurationException([FormattableString.Invariant($"The shock is {ThicknessMetres * 1e3} mm thick; the thickness must be above 0.")]);
            RequireOneGas(gas);
            HalfPlane behind = SideBehind();
            (double x, double y) = view.OnFlowPlane(PointX, PointY);
            double jump = gas.AmbientDensityKgM3 * (Behind().DensityRatio - 1);
            return Slab(view, gas, LengthMetres, new ShockDensity(x, y, behind.IntoX, behind.IntoY, jump, ThicknessMetres));
        }

        internal override IReadOnlyList<(double X, double Y)> Outline(ViewGeometry view, SceneGas gas)
        {
            (double x, double y) = view.OnFlowPlane(PointX, PointY);
            return OutlineShapes.Strip(view, x, y, DirectionOfShock(Behind()), _ => Reach * ThicknessMetres);
        }

        internal override IReadOnlyList<HalfPlane> CalmSides(ViewGeometry view)
        {
            HalfPlane behind = SideBehind();
            return [(behind with { IntoX = -behind.IntoX, IntoY = -behind.IntoY }).Moved(Reach * ThicknessMetres / view.FlowMetresPerPixel)];
        }

        /// <summary>The side behind, its edge along the middle of the shock.</summary>
        internal HalfPlane SideBehind()
        {
            (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(DirectionOfShock(Behind())));
            (double flowSine, double flowCosine) = Math.SinCos(double.DegreesToRadians(DirectionDegrees));
            // The flow crosses the shock: of the two normals the one along the flow points to the side behind. y is down.
            double side = Math.Sign((flowCosine * sine) - (flowSine * cosine));
            return new HalfPlane(PointX, PointY, side * sine, side * cosine);
        }

        private double DirectionOfShock(ObliqueShock shock) => DirectionDegrees + (Math.Sign(WedgeDegrees) * shock.ShockDegrees);
    }
}
