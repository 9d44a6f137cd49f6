namespace BosFlow.Results.Report;

/// <summary>A value of a field and where it is.</summary>
/// <param name="X">x, px of the reference.</param>
/// <param name="Y">y, px.</param>
/// <param name="Value">The value in the field's unit.</param>
/// <param name="Sigma">Its standard uncertainty; NaN where not known.</param>
public sealed record FieldPlace(double X, double Y, double Value, double Sigma);
