"""Floor 1: what the designer meant. Frozen records that know where in the source they came from.

The source floor makes a `Pattern`; nothing here reads, checks or computes. Sizes are resolved: each
holds its own fabrics, sewing rules and quilt, with the pattern's values where it says nothing.
"""

from __future__ import annotations

from booklet.pattern.blocks import (
    Anchor as Anchor,
    AnchorKind as AnchorKind,
    Applied as Applied,
    At as At,
    Beside as Beside,
    Block as Block,
    By as By,
    DeclaredStep as DeclaredStep,
    Ends as Ends,
    ExtentPoint as ExtentPoint,
    Grain as Grain,
    OwnPicture as OwnPicture,
    PartOf as PartOf,
    Piece as Piece,
    PressKind as PressKind,
    PressWish as PressWish,
    Ring as Ring,
    Shape as Shape,
    StepBy as StepBy,
)
from booklet.pattern.booklets import (
    CLASS_PAGES as CLASS_PAGES,
    Address as Address,
    Booklet as Booklet,
    Contact as Contact,
    CoverWish as CoverWish,
    Difficulty as Difficulty,
    Edition as Edition,
    Imprint as Imprint,
    Instalment as Instalment,
    Isbn as Isbn,
    Lesson as Lesson,
    Look as Look,
    Makes as Makes,
    OwnFont as OwnFont,
    Page as Page,
    PageOrder as PageOrder,
    Paper as Paper,
    Session as Session,
    Tint as Tint,
    Until as Until,
    Voice as Voice,
)
from booklet.pattern.cloth import (
    Direction as Direction,
    Fabric as Fabric,
    Sold as Sold,
    SoldAs as SoldAs,
)
from booklet.pattern.quilts import (
    Backing as Backing,
    Batting as Batting,
    Binding as Binding,
    Border as Border,
    BorderCut as BorderCut,
    Centre as Centre,
    Corners as Corners,
    Envelope as Envelope,
    FilledRim as FilledRim,
    Fold as Fold,
    JoinOrder as JoinOrder,
    LaidSetting as LaidSetting,
    Mirror as Mirror,
    Quilt as Quilt,
    Rim as Rim,
    RimPatches as RimPatches,
    RimWish as RimWish,
    Sashing as Sashing,
    SetKind as SetKind,
    Setting as Setting,
    Sleeve as Sleeve,
)
from booklet.pattern.sizes import (
    BETWEEN as BETWEEN,
    KITS as KITS,
    SINGLE_KINDS as SINGLE_KINDS,
    Alternative as Alternative,
    AlternativeKind as AlternativeKind,
    Bed as Bed,
    ForClass as ForClass,
    Size as Size,
    taken_together as taken_together,
)
from booklet.pattern.ways import (
    BlockTechnique as BlockTechnique,
    HandRoutes as HandRoutes,
    Pace as Pace,
    PressHabit as PressHabit,
    RouteCosts as RouteCosts,
    Sewing as Sewing,
    ShortSeams as ShortSeams,
    Technique as Technique,
    TurnCosts as TurnCosts,
    UnitCutting as UnitCutting,
    UnitWish as UnitWish,
)
from booklet.pattern.whole import Pattern as Pattern
