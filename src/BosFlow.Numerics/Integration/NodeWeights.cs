namespace BosFlow.Numerics.Integration;

/// <summary>How one integrated value follows from the measured gradients: value = sum of weights * gradients + what the known values give. Arrays are row-major.</summary>
/// <param name="OfGradientX">Derivative of the value by each entry of <see cref="GradientProblem.GradientX"/>; 0 where that is not used.</param>
/// <param name="OfGradientY">Derivative of the value by each entry of <see cref="GradientProblem.GradientY"/>; 0 where that is not used.</param>
public sealed record NodeWeights(double[] OfGradientX, double[] OfGradientY);
