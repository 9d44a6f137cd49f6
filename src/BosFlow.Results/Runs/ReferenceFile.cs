using BosFlow.Footage;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>The reference picture as the content of reference.nc, and back: the pixels that x and y of every result refer to.</summary>
internal static class ReferenceFile
{
    public static NetCdfContent ToContent(GrayImage image, string description, string identity) => new()
    {
        Attributes = [new("title", "Reference picture of a run"), new("source", description), new(FrameFile.IdentityName, identity), new("white_level_dn", image.WhiteLevel)],
        Variables =
        [
            new() { Name = "y", Dimensions = ["y"], Data = Indices(image.Height), Unit = "px", LongName = "row of the picture", Attributes = [new("axis", "Y"), new("positive", "down")] },
            new() { Name = "x", Dimensions = ["x"], Data = Indices(image.Width), Unit = "px", LongName = "column of the picture", Attributes = [new("axis", "X")] },
            new() { Name = "level", Dimensions = ["y", "x"], Data = image.Pixels.ToArray(), Unit = "1", LongName = "grey level in digital numbers of the source" },
        ],
    };

    public static GrayImage Image(NetCdfContent content) =>
        new(content.Variable("x").Data.Length, content.Variable("y").Data.Length, content.Values<float>("level"), content.Required<float>("white_level_dn"));

    private static int[] Indices(int count) => [.. Enumerable.Range(0, count)];
}
