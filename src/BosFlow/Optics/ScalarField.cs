using BosFlow.Displacement;

namespace BosFlow.Optics;

/// <summary>A quantity on a grid with its standard uncertainty and unit.</summary>
/// <param name="Name">Variable name of design and files, for example density_gradient_path_x.</param>
/// <param name="Title">The quantity in words, for labels.</param>
/// <param name="Unit">Unit in the notation of the CF conventions, for example kg m-3; "1" where it has none.</param>
/// <param name="Grid">Node positions, px of the reference.</param>
/// <param name="Values">Row-major, Grid.Count entries; NaN where not known.</param>
/// <param name="Sigma">Standard uncertainty of each value in the same unit; NaN where not known.</param>
public sealed record ScalarField(string Name, string Title, string Unit, NodeGrid Grid, float[] Values, float[] Sigma);
