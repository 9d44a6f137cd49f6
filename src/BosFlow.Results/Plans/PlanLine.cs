namespace BosFlow.Results.Plans;

/// <summary>One line of the sheet of a plan.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">Its value, three significant digits; empty where it cannot be told.</param>
/// <param name="Unit">Its unit in plain letters, such as "kg m-3"; empty for a pure number.</param>
/// <param name="Remark">What it means or what is missing to tell it; empty for none.</param>
public sealed record PlanLine(string Name, string Value, string Unit, string Remark)
{
    /// <summary>Value with unit; a dash where it cannot be told.</summary>
    public string Quantity => Value.Length == 0 ? "-" : Unit.Length == 0 ? Value : $"{Value} {Unit}";
}
