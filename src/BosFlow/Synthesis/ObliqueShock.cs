namespace BosFlow.Synthesis;

/// <summary>State behind an oblique shock of a perfect gas, the weak one of the two that a wedge can hold.</summary>
/// <param name="Mach">M1: Mach number before it, 1, greater than 1.</param>
/// <param name="WedgeDegrees">Angle by which it turns the flow, degrees, greater than 0.</param>
/// <param name="ShockDegrees">beta: angle between shock and oncoming flow, degrees.</param>
/// <param name="DensityRatio">rho2 / rho1, 1.</param>
/// <param name="PressureRatio">p2 / p1, 1.</param>
/// <param name="MachBehind">M2, 1.</param>
/// <remarks>
/// Source of the relations: Ames Research Staff 1953, Equations, tables, and charts for compressible flow, NACA Report 1135; the numbers of its
/// equations beside each are from memory.
/// </remarks>
public sealed record ObliqueShock(double Mach, double WedgeDegrees, double ShockDegrees, double DensityRatio, double PressureRatio, double MachBehind)
{
    // Ratio of specific heats of air, as in the report's tables.
    private const double StandardGamma = 1.4;

    /// <summary>The shock of a wedge.</summary>
    /// <param name="mach">Mach number of the oncoming flow, greater than 1, at most 50.</param>
    /// <param name="wedgeDegrees">Angle of the wedge, degrees, greater than 0.</param>
    /// <param name="gamma">Ratio of specific heats, greater than 1, at most 5/3.</param>
    /// <exception cref="ConfigurationException">The flow is not supersonic, a value is out of range, or the wedge is so blunt that the shock detaches.</exception>
    public static ObliqueShock Of(double mach, double wedgeDegrees, double gamma = StandardGamma)
    {
        if (!(mach is > 1 and <= 50))
            throw Problem($"The Mach number is {mach}; a shock needs a supersonic flow, more than 1 and at most 50.");
        if (!(wedgeDegrees is > 0 and < 90))
            throw Problem($"The wedge turns the flow by {wedgeDegrees} degrees; it must be more than 0 and less than 90.");
        if (!(gamma is > 1 and <= 1.67))
            throw Problem($"The ratio of specific heats is {gamma}; it must be more than 1 and at most 1.67.");
        double steepest = AngleOfLargestTurn(mach, gamma);
        double largest = double.RadiansToDegrees(Turn(mach, steepest, gamma));
        if (wedgeDegrees > largest)
            throw Problem($"At Mach {mach} a wedge can turn the flow by at most {largest:F2} degrees; at {wedgeDegrees} degrees the shock detaches from its tip and is curved. Make the wedge more slender or the Mach number greater.");
        double beta = WeakAngle(mach, double.DegreesToRadians(wedgeDegrees), steepest, gamma);
        double sine = Math.Sin(beta);
        double normal = mach * mach * sine * sine;
        double density = (gamma + 1) * normal / (((gamma - 1) * normal) + 2); // 129
        double pressure = ((2 * gamma * normal) - (gamma - 1)) / (gamma + 1); // 128
        double normalBehind = (((gamma - 1) * normal) + 2) / ((2 * gamma * normal) - (gamma - 1)); // 132
        double machBehind = Math.Sqrt(normalBehind) / Math.Sin(beta - double.DegreesToRadians(wedgeDegrees));
        return new ObliqueShock(mach, wedgeDegrees, double.RadiansToDegrees(beta), density, pressure, machBehind);
    }

    /// <summary>Angle by which a shock of angle beta turns the flow, rad: tan(turn) = 2 cot(beta) (M^2 sin^2(beta) - 1) / (M^2 (gamma + cos(2 beta)) + 2); equations 138 and 139a.</summary>
    private static double Turn(double mach, double beta, double gamma)
    {
        double sine = Math.Sin(beta);
        double square = mach * mach;
        return Math.Atan(2 / Math.Tan(beta) * ((square * sine * sine) - 1) / ((square * (gamma + Math.Cos(2 * beta))) + 2));
    }

    /// <summary>Shock angle that turns the flow most, rad; equation 168.</summary>
    private static double AngleOfLargestTurn(double mach, double gamma)
    {
        double square = mach * mach;
        double root = Math.Sqrt((gamma + 1) * (1 + ((gamma - 1) / 2 * square) + ((gamma + 1) / 16 * square * square)));
        return Math.Asin(Math.Sqrt((((gamma + 1) / 4 * square) - 1 + root) / (gamma * square)));
    }

    /// <summary>The turn rises from the Mach angle to the angle of the largest turn: halving finds the one weak shock between them.</summary>
    private static double WeakAngle(double mach, double turn, double steepest, double gamma)
    {
        double low = Math.Asin(1 / mach);
        double high = steepest;
        // Sixty halvings of less than 90 degrees end below the rounding of the angle.
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (Turn(mach, middle, gamma) < turn)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }

    private static ConfigurationException Problem(FormattableString sentence) => new([FormattableString.Invariant(sentence)]);
}
