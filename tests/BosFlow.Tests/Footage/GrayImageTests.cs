using BosFlow.Footage;

namespace BosFlow.Tests.Footage;

public sealed class GrayImageTests
{
    private const int Width = 7;
    private const int Height = 5;
    private static readonly byte[] Codes = [.. Enumerable.Range(0, Width * Height).Select(i => (byte)(7 * i))];

    [Fact]
    public void Pixels_OfCodes_AreTheCodes()
    {
        var picture = new GrayImage(Width, Height, (byte[])Codes.Clone(), 255);

        Assert.True(picture.HasCodes);
        Assert.Equal(Codes[(3 * Width) + 2], picture[2, 3]);
        Assert.Equal(Codes.Select(code => (float)code), picture.Pixels.ToArray());
        Assert.Equal(Codes.Skip(2 * Width).Take(Width).Select(code => (float)code), picture.Row(2).ToArray());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Levels_OfCodesAndOfFloats_AreTheSame(bool hasCodes)
    {
        GrayImage picture = hasCodes ? new(Width, Height, (byte[])Codes.Clone(), 255) : new(Width, Height, Array.ConvertAll(Codes, code => (float)code), 255);
        float[] room = new float[30];

        ReadOnlySpan<float> levels = picture.Levels(4, 20, room);

        Assert.Equal(Codes.Skip(4).Take(20).Select(code => (float)code), levels.ToArray());
        Assert.Equal(hasCodes ? Codes[4] : 0, room[0]);
    }

    [Fact]
    public void GrayImage_WrongNumberOfCodes_IsRefused() => Assert.Throws<ArgumentException>(() => new GrayImage(Width, Height, new byte[3], 255));
}
