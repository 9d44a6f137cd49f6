using BosFlow.Results.Maps;

namespace BosFlow.Results.Tests.Maps;

public sealed class ColourRangeTests
{
    [Fact]
    public void Automatic_OneWildValue_DoesNotCount()
    {
        float[] values = [.. Enumerable.Range(0, 1000).Select(i => (i - 500) / 250f), 900, float.NaN];

        ColourRange range = ColourRange.Automatic(values, signed: true);

        Assert.Equal(2.0, range.High, 1e-9);
        Assert.Equal(-2.0, range.Low, 1e-9);
        Assert.Contains("0.1 % of the values lie beyond", range.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0123, 0.013)]
    [InlineData(2.4, 2.4)]
    [InlineData(97.1, 98)]
    [InlineData(1e-6, 1e-6)]
    public void Automatic_Magnitude_IsRoundedUpToTwoDigits(float value, double expected) =>
        Assert.Equal(expected, ColourRange.Automatic([value, value, value], signed: false).High, expected * 1e-4);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Automatic_NothingKnownOrAllZero_SaysSo(bool signed)
    {
        Assert.Equal("no value is known", ColourRange.Automatic([float.NaN], signed).Statement);
        Assert.Equal("every value is zero", ColourRange.Automatic([0f, 0f], signed).Statement);
    }

    [Fact]
    public void Between_ValuesAboutALargeOne_SpansThemAndNotZero()
    {
        float[] values = [.. Enumerable.Range(0, 1001).Select(i => 0.605f + (i * 0.0005f)), 90, -7];

        ColourRange range = ColourRange.Between(values);

        // Percentiles 0.2 and 99.8 are close to 0.606 and 1.104; a fiftieth of their distance is rounded to the step 0.01.
        Assert.Equal(0.6, range.Low, 1e-6);
        Assert.Equal(1.11, range.High, 1e-6);
        Assert.Contains("0.2 % of the values lie beyond", range.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Between_NothingKnownOrAllTheSame_SaysSo()
    {
        Assert.Equal("no value is known", ColourRange.Between([float.NaN]).Statement);
        ColourRange same = ColourRange.Between([1.2f, 1.2f]);
        Assert.Equal("every value is the same", same.Statement);
        Assert.InRange(1.2, same.Low, same.High);
        Assert.True(ColourRange.Between([0f]).High > 0);
    }

    [Theory]
    [InlineData(0, 639, 7, "0 100 200 300 400 500 600")]
    [InlineData(-4.1, 4.1, 8, "−4 −2 0 2 4")]
    [InlineData(0, 0.013, 6, "0 0.005 0.010")]
    [InlineData(-0.5, 0.5, 5, "−0.4 −0.2 0 0.2 0.4")]
    public void Ticks_AnyRange_AreRoundNumbers(double low, double high, int most, string expected)
    {
        Ticks ticks = Ticks.Between(low, high, most);

        Assert.Equal(expected, string.Join(' ', ticks.Values.Select(ticks.Label)).Replace("0.0 ", "0 ", StringComparison.Ordinal).Replace("0.000 ", "0 ", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("kg m-3", "kg m⁻³")]
    [InlineData("1", "")]
    [InlineData("px", "px")]
    public void UnitText_CfNotation_IsReadable(string unit, string expected) => Assert.Equal(expected, UnitText.Readable(unit));

    [Theory]
    [InlineData(0.00042, "10⁻⁶ rad")]
    [InlineData(0.5, "rad")]
    [InlineData(25000, "10³ rad")]
    public void UnitText_SmallAndLargeNumbers_GetAPowerOfThousand(double largest, string expected) =>
        Assert.Equal(expected, UnitText.WithExponent("rad", UnitText.Exponent(largest)));
}
