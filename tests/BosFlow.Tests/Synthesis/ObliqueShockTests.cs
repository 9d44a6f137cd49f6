using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class ObliqueShockTests
{
    // Ames Research Staff 1953, NACA Report 1135, relations for gamma = 1.4; values computed by an independent script from them, to the digits given.
    [Theory]
    [InlineData(1.5, 5, 47.889, 1.1910, 1.2780, 1.3253)]
    [InlineData(2, 5, 34.302, 1.2156, 1.3154, 1.8213)]
    [InlineData(2, 10, 39.314, 1.4584, 1.7066, 1.6405)]
    [InlineData(2, 15, 45.344, 1.7289, 2.1947, 1.4457)]
    [InlineData(2.5, 10, 31.851, 1.5493, 1.8639, 2.0859)]
    [InlineData(3, 10, 27.383, 1.6546, 2.0545, 2.5050)]
    [InlineData(3, 20, 37.764, 2.4181, 3.7713, 1.9941)]
    public void Of_Wedge_GivesTheTable(double mach, double wedge, double beta, double density, double pressure, double machBehind)
    {
        ObliqueShock shock = ObliqueShock.Of(mach, wedge);
        Assert.Equal(beta, shock.ShockDegrees, 5e-4);
        Assert.Equal(density, shock.DensityRatio, 5.1e-5);
        Assert.Equal(pressure, shock.PressureRatio, 5.1e-5);
        Assert.Equal(machBehind, shock.MachBehind, 5.1e-5);
    }

    [Fact]
    public void Of_VanishingWedge_IsAMachWave()
    {
        ObliqueShock wave = ObliqueShock.Of(2, 1e-6);
        Assert.Equal(30, wave.ShockDegrees, 1e-4); // the Mach angle asin(1 / 2)
        Assert.Equal(1, wave.DensityRatio, 1e-6);
        Assert.Equal(2, wave.MachBehind, 1e-5);
    }

    // The largest turn at Mach 2 is 22.97 degrees (the same report's chart 2; read from memory).
    [Theory]
    [InlineData(22.9, true)]
    [InlineData(23.1, false)]
    public void Of_BluntWedge_IsRefusedBeyondTheLargestTurn(double wedge, bool attached)
    {
        if (attached)
        {
            Assert.InRange(ObliqueShock.Of(2, wedge).ShockDegrees, 60, 66);
            return;
        }

        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => ObliqueShock.Of(2, wedge));
        Assert.Contains("at most 22.97 degrees", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("detaches", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.9, 5, "supersonic")]
    [InlineData(double.NaN, 5, "supersonic")]
    [InlineData(2, 0, "0 degrees")]
    [InlineData(2, -5, "-5 degrees")]
    public void Of_Nonsense_IsRefused(double mach, double wedge, string word) =>
        Assert.Contains(word, Assert.Throws<ConfigurationException>(() => ObliqueShock.Of(mach, wedge)).Message, StringComparison.Ordinal);

    [Fact]
    public void Of_AnyWedge_ConservesMassMomentumAndEnergy()
    {
        // Independent of the relations: the three balances across the shock for a perfect gas, with rho1 = p1 = 1 and speeds in sqrt(p1 / rho1).
        ObliqueShock shock = ObliqueShock.Of(2.7, 17);
        double beta = double.DegreesToRadians(shock.ShockDegrees);
        double behindAngle = beta - double.DegreesToRadians(17);
        double speed = 2.7 * Math.Sqrt(1.4);
        double speedBehind = shock.MachBehind * Math.Sqrt(1.4 * shock.PressureRatio / shock.DensityRatio);
        double normal = speed * Math.Sin(beta);
        double normalBehind = speedBehind * Math.Sin(behindAngle);
        Assert.Equal(normal, shock.DensityRatio * normalBehind, 1e-9);
        Assert.Equal(speed * Math.Cos(beta), speedBehind * Math.Cos(behindAngle), 1e-9);
        Assert.Equal(1 + (normal * normal), shock.PressureRatio + (shock.DensityRatio * normalBehind * normalBehind), 1e-9);
        Assert.Equal(3.5 + (speed * speed / 2), (3.5 * shock.PressureRatio / shock.DensityRatio) + (speedBehind * speedBehind / 2), 1e-9);
    }
}
