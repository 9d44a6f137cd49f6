using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Tests.NetCdf;

internal static class SampleContent
{
    public static NetCdfContent Small() => new()
    {
        Attributes = [new("title", "Strömung"), new("warnings", new[] { "first", "second, with a long text that exceeds sixteen bytes by far" }), new("motion", new[] { 1.0, 0.1, -7.25 }), new("frame", 7)],
        Variables =
        [
            new() { Name = "time", Dimensions = [], Data = new[] { 1.0 / 3 }, Unit = "s", LongName = "time since the first frame" },
            new() { Name = "y", Dimensions = ["y"], Data = new[] { 15.5, 31.5, 47.5 }, Unit = "px", LongName = "row", Attributes = [new("axis", "Y")] },
            new() { Name = "x", Dimensions = ["x"], Data = new[] { 15.5, 31.5 }, Unit = "px", LongName = "column" },
            new() { Name = "u", Dimensions = ["y", "x"], Data = new[] { 0.1f, -2.75f, float.NaN, 1e-7f, float.MaxValue, -0f }, Unit = "px", LongName = "displacement to the right" },
            new()
            {
                Name = "flag", Dimensions = ["y", "x"], Data = new byte[] { 0, 1, 4, 2, 3, 64 }, LongName = "what happened to the vector",
                Attributes = [new("flag_masks", new byte[] { 1, 2, 4 }), new("flag_meanings", "outlier low_correlation masked")],
            },
            new() { Name = "count", Dimensions = ["y", "x"], Data = new[] { 1, 2, 3, 4, 5, int.MaxValue }, Unit = "1", LongName = "number of frames" },
        ],
    };

    /// <summary>Bit patterns of an array, so that NaN and signed zero compare as they are.</summary>
    public static byte[] Bits(Array values)
    {
        byte[] bytes = new byte[Buffer.ByteLength(values)];
        Buffer.BlockCopy(values, 0, bytes, 0, bytes.Length);
        return bytes;
    }

    public static void AssertSame(NetCdfContent expected, NetCdfContent actual)
    {
        Assert.Equal(expected.Variables.Select(v => v.Name).Order(), actual.Variables.Select(v => v.Name).Order());
        foreach (NetCdfVariable variable in expected.Variables)
        {
            NetCdfVariable read = actual.Variable(variable.Name);
            Assert.Equal(variable.Dimensions, read.Dimensions);
            Assert.Equal(variable.Data.GetType(), read.Data.GetType());
            Assert.Equal(Bits(variable.Data), Bits(read.Data));
            Assert.Equal(variable.Unit, read.Unit);
            Assert.Equal(variable.LongName, read.LongName);
            AssertSame(variable.Attributes, read.Attributes);
        }

        AssertSame(expected.Attributes, actual.Attributes);
    }

    private static void AssertSame(IReadOnlyList<NetCdfAttribute> expected, IReadOnlyList<NetCdfAttribute> actual)
    {
        Assert.Equal(expected.Select(a => a.Name).Order(), actual.Select(a => a.Name).Order());
        foreach (NetCdfAttribute attribute in expected)
            Assert.Equal(attribute.Value, actual.Single(a => a.Name == attribute.Name).Value);
    }
}
