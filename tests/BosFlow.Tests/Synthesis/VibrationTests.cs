using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class VibrationTests
{
    private static readonly VibrationSettings Band = new() { LowHertz = 20, HighHertz = 180, ShiftRmsPixels = 6, RotationRmsDegrees = 0.1, ScaleRmsPercent = 0.2 };

    [Fact]
    public void At_LongTime_HasTheRootMeanSquareOfEveryParameter()
    {
        // Over 20 s tones 5 Hz apart and more are orthogonal to 1 %; a steady sum, no statistics.
        CameraPose[] poses = Poses(new Vibration(Band, 7), 40000, 1 / 2000.0);
        Assert.Equal(6, Rms(poses.Select(pose => pose.ShiftX)), 0.1);
        Assert.Equal(6, Rms(poses.Select(pose => pose.ShiftY)), 0.1);
        Assert.Equal(0.1, Rms(poses.Select(pose => pose.Degrees)), 0.002);
        Assert.Equal(0.002, Rms(poses.Select(pose => pose.Scale - 1)), 4e-5);
    }

    [Fact]
    public void At_Band_HasItsPowerInsideAndNoneOutside()
    {
        const int Count = 4000;
        const double Step = 1 / 1000.0;
        double[] shift = [.. Poses(new Vibration(Band, 3), Count, Step).Select(pose => pose.ShiftX)];
        double inside = 0, outside = 0;
        for (int k = 1; k < Count / 2; k++)
        {
            double hertz = k / (Count * Step);
            double power = Power(shift, k);
            if (hertz is >= 19 and <= 181)
                inside += power;
            else
                outside += power;
        }

        Assert.True(outside < 1e-4 * inside, FormattableString.Invariant($"{outside / inside:E1} of the power lies outside the band"));
        // Every fifth of the band has its share: 32 tones in equal parts.
        double[] fifths = [.. Enumerable.Range(0, 5).Select(i => Enumerable.Range((int)((20 + (32 * i)) * 4), 128).Sum(k => Power(shift, k)))];
        Assert.All(fifths, fifth => Assert.InRange(fifth / inside, 0.1, 0.3));
    }

    [Fact]
    public void At_Line_HasItsAmplitudeAtItsFrequency()
    {
        // Ten periods exactly, above any frame rate in use.
        var vibration = new Vibration(new VibrationSettings { Lines = [new VibrationLine(240, 1.5)] }, 5);
        double[] shift = [.. Poses(vibration, 1000, 1 / 24000.0).Select(pose => pose.ShiftY)];
        (double cosine, double sine) = (0, 0);
        for (int i = 0; i < shift.Length; i++)
        {
            cosine += shift[i] * Math.Cos(2 * Math.PI * 10 * i / 1000.0) / 500;
            sine += shift[i] * Math.Sin(2 * Math.PI * 10 * i / 1000.0) / 500;
        }

        Assert.Equal(1.5, double.Hypot(cosine, sine), 1e-9);
        Assert.Equal(1.5 / Math.Sqrt(2), Rms(shift), 1e-9);
    }

    [Fact]
    public void At_SameSeed_RepeatsAndOneParameterLeavesTheOthers()
    {
        Assert.Equal(new Vibration(Band, 3).At(0.37), new Vibration(Band, 3).At(0.37));
        Assert.NotEqual(new Vibration(Band, 3).At(0.37), new Vibration(Band, 4).At(0.37));
        CameraPose shiftless = new Vibration(Band with { ShiftRmsPixels = 0 }, 3).At(0.37);
        Assert.Equal(new Vibration(Band, 3).At(0.37) with { ShiftX = 0, ShiftY = 0 }, shiftless);
    }

    [Fact]
    public void MoveBack_MovedPoint_IsWhereItCameFrom()
    {
        var pose = new CameraPose(3, -2, 1.5, 1.01);
        (double x, double y) = pose.Move(120, -45);
        (double backX, double backY) = pose.MoveBack(x, y);
        Assert.Equal(120, backX, 1e-10);
        Assert.Equal(-45, backY, 1e-10);
        (double u, double v) = pose.ToMotion(200, 100).DisplacementAt(320, 55);
        Assert.Equal(x, 320 + u - 200, 1e-10);
        Assert.Equal(y, 55 + v - 100, 1e-10);
    }

    private static CameraPose[] Poses(Vibration vibration, int count, double step) => [.. Enumerable.Range(0, count).Select(i => vibration.At(i * step))];

    private static double Rms(IEnumerable<double> values) => Math.Sqrt(values.Average(value => value * value));

    // Power of one Fourier component under a Hann-squared window, whose leakage falls off fast.
    private static double Power(double[] values, int k)
    {
        (double real, double imaginary) = (0, 0);
        for (int i = 0; i < values.Length; i++)
        {
            double window = Math.Pow(Math.Sin(Math.PI * i / values.Length), 4);
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * ((long)k * i % values.Length) / values.Length);
            real += window * values[i] * cosine;
            imaginary += window * values[i] * sine;
        }

        return (real * real) + (imaginary * imaginary);
    }
}
