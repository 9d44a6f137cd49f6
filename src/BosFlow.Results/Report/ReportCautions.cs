namespace BosFlow.Results.Report;

/// <summary>What every reader of the report should know before acting on it.</summary>
internal static class ReportCautions
{
    /// <summary>What a temperature from density rests on.</summary>
    public static IReadOnlyList<string> Temperature { get; } =
    [
        "It follows from the density by the ideal gas at one pressure and one molar mass. The composition of exhaust is rarely known: its molar mass and its Gladstone-Dale coefficient differ from those of air, and the temperature with them.",
        "In jets that leave the nozzle under- or over-expanded, and wherever there are shocks, the pressure is not that of the surroundings, and the temperature given here is wrong.",
        "It is a research-grade figure, not a certified measurement: no evidence of airworthiness, and no ground to call a surface, a gas or a distance safe.",
    ];

    public static IReadOnlyList<string> Sentences { get; } =
    [
        "These are research-grade measurements. They are no evidence of airworthiness, and no part of a safety case.",
        "Exhaust burns, melts and ignites well downstream of the nozzle, and parts stay hot long after shutdown. Keep people, panel and camera out of the exhaust, the intake and the planes of rotating parts; protect eyes and ears.",
        "Fuel and oil: no ignition sources, ventilation, spill kit, the right extinguisher within reach; never refuel hot. Battery packs: the right charger, attended, no damaged packs, away from hot gas.",
        "Strong lamps and lasers: observe their eye-safety class, and never aim at aircraft.",
        "Follow the maker's instructions, the codes that hold where you are, and leave the decision to fly or run to competent, licensed or authorised people.",
    ];
}
