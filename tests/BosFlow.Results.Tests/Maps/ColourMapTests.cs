using BosFlow.Results.Maps;
using SkiaSharp;

namespace BosFlow.Results.Tests.Maps;

public sealed class ColourMapTests
{
    private const int Steps = 64;

    [Fact]
    public void Magnitude_AlongTheMap_RisesEvenlyInLightness()
    {
        CieLab[] labs = Along(ColourMap.Magnitude);

        AssertEven(labs);
        Assert.Equal(14, labs[0].Lightness, 0.8);
        Assert.Equal(95, labs[^1].Lightness, 0.8);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void DensityAndTemperature_AlongTheMap_RiseEvenlyInLightness(bool density)
    {
        CieLab[] labs = Along(density ? ColourMap.Density : ColourMap.Temperature);

        AssertEven(labs);
        Assert.Equal(14, labs[0].Lightness, 0.8);
        Assert.Equal(95, labs[^1].Lightness, 0.8);
    }

    [Fact]
    public void KnifeEdge_AlongTheMap_RisesEvenlyAndIsGrey()
    {
        CieLab[] labs = Along(ColourMap.KnifeEdge);

        AssertEven(labs);
        Assert.All(labs, lab => Assert.InRange(Math.Abs(lab.A) + Math.Abs(lab.B), 0, 0.1));
        Assert.Equal(50, labs[Steps / 2].Lightness, 0.5);
    }

    [Fact]
    public void Signed_BothSides_AreEquallyDarkAtEqualDistance()
    {
        CieLab[] labs = Along(ColourMap.Signed);

        for (int i = 0; i <= Steps; i++)
            Assert.Equal(labs[i].Lightness, labs[Steps - i].Lightness, 0.8);
        AssertEven(labs[(Steps / 2)..].Reverse().ToArray());
        AssertEven(labs[..((Steps / 2) + 1)]);
        Assert.True(labs[0].B < -20 && labs[^1].B > 20, "blue is negative, orange positive");
    }

    [Fact]
    public void At_BeyondTheEnds_GivesTheEndColours()
    {
        Assert.Equal(ColourMap.Signed.At(0), ColourMap.Signed.At(-3));
        Assert.Equal(ColourMap.Signed.At(1), ColourMap.Signed.At(7));
    }

    private static CieLab[] Along(ColourMap map) => [.. Enumerable.Range(0, Steps + 1).Select(i => Lab(map.At(i / (double)Steps)))];

    private static CieLab Lab(SKColor colour) => CieLab.OfSrgb(colour.Red, colour.Green, colour.Blue);

    // Even: lightness follows the straight line within the rounding to 8 bits and the edge of the screen's gamut, and no
    // colour step is more than twice the mean one.
    private static void AssertEven(CieLab[] labs)
    {
        double mean = labs.Zip(labs.Skip(1), (a, b) => a.DistanceTo(b)).Average();
        for (int i = 1; i < labs.Length; i++)
        {
            Assert.True(labs[i].Lightness > labs[i - 1].Lightness, $"lightness falls at step {i}");
            Assert.InRange(labs[i].DistanceTo(labs[i - 1]), mean / 2, mean * 2);
            double line = labs[0].Lightness + ((labs[^1].Lightness - labs[0].Lightness) * i / (labs.Length - 1));
            Assert.Equal(line, labs[i].Lightness, 0.8);
        }
    }
}
