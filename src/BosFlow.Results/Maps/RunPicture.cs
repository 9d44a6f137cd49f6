namespace BosFlow.Results.Maps;

/// <summary>One picture of a run.</summary>
/// <param name="FileName">Name in the folder of maps, for example density_gradient_path_x.png.</param>
/// <param name="Title">The quantity in words.</param>
/// <param name="Caption">Quantity, unit, sign convention and method, in sentences.</param>
/// <param name="Png">The bytes of the picture.</param>
public sealed record RunPicture(string FileName, string Title, string Caption, byte[] Png)
{
    /// <summary>What it belongs to.</summary>
    public PictureTopic Topic { get; init; } = PictureTopic.Displacement;
}
