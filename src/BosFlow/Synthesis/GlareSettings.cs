namespace BosFlow.Synthesis;

/// <summary>A bright spot such as the sun's reflection: a Gaussian added to the light, at rest in the picture.</summary>
/// <param name="X">Its column, px.</param>
/// <param name="Y">Its row, px.</param>
/// <param name="RadiusPixels">Distance at which it is down to 1/e, px, greater than 0.</param>
/// <param name="Level">What its middle adds, share of full scale; 1 and more saturates.</param>
public sealed record GlareSettings(double X, double Y, double RadiusPixels, double Level);
