namespace BosFlow.Results.Report;

/// <summary>What every reader of the report should know before acting on it.</summary>
internal static class ReportCautions
{
    public static IReadOnlyList<string> Sentences { get; } =
    [
        "These are research-grade measurements. They are no evidence of airworthiness, and no part of a safety case.",
        "Exhaust burns, melts and ignites well downstream of the nozzle, and parts stay hot long after shutdown. Keep people, panel and camera out of the exhaust, the intake and the planes of rotating parts; protect eyes and ears.",
        "Fuel and oil: no ignition sources, ventilation, spill kit, the right extinguisher within reach; never refuel hot. Battery packs: the right charger, attended, no damaged packs, away from hot gas.",
        "Strong lamps and lasers: observe their eye-safety class, and never aim at aircraft.",
        "Follow the maker's instructions, the codes that hold where you are, and leave the decision to fly or run to competent, licensed or authorised people.",
    ];
}
