"""The former place of what is now in profile, friction and transfer_length."""

from __future__ import annotations

from soffit.member.friction import Jacked, jacked
from soffit.member.profile import height, slope
from soffit.member.transfer_length import built_up, transfer_length

__all__ = ["Jacked", "built_up", "height", "jacked", "slope", "transfer_length"]
