namespace BosFlow.Validation;

/// <summary>One measured figure with what is required of it.</summary>
/// <param name="Study">Name of the study it belongs to.</param>
/// <param name="Name">What was measured, in words.</param>
/// <param name="Value">The value.</param>
/// <param name="Unit">Unit, "1" where it has none.</param>
/// <param name="AtLeast">Least value that passes; null = no lower requirement.</param>
/// <param name="AtMost">Largest value that passes; null = no upper requirement.</param>
/// <param name="Note">What it compares with or where the requirement comes from; may be empty.</param>
public sealed record Figure(string Study, string Name, double Value, string Unit, double? AtLeast, double? AtMost, string Note = "")
{
    /// <summary>Whether anything is required of the figure.</summary>
    public bool IsRequired => AtLeast is not null || AtMost is not null;

    /// <summary>Whether the value meets what is required; a value that is not a number never does.</summary>
    public bool Passes => !IsRequired || (Value >= (AtLeast ?? double.NegativeInfinity) && Value <= (AtMost ?? double.PositiveInfinity));
}
